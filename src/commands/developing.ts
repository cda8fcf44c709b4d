import { asPushRule, circulatingRules } from "../data/push-rules.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { type Promised, workBefore } from "../domain/chemistry/work-before.ts";
import { showOrigin } from "../domain/origin.ts";
import { type DeveloperTime, developerTime } from "../domain/process/developer-time.ts";
import { explainPush, pushTime, showStops } from "../domain/process/push-time.ts";
import type { Bath, PushRule, Sheet } from "../domain/process/sheet.ts";
import type { Stage } from "../domain/session/run.ts";
import { type Seconds, seconds } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { type Json, type Option, type Reply, refuse, type Shown } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";

/** No tank is pushed further (common practice: three stops is the end of what makers speak of). */
const MOST_STOPS = 3;

/** A time, and how it is worked out again when its bottle does more film before it is poured. */
type Worked = DeveloperTime & { readonly follows?: Stage["follows"] };
type Developing = { readonly found: Worked } | { readonly reply: Reply };

/** What else is known of the tank: film of others that pours first, and its own film in units. */
type Tank = { readonly first?: readonly Promised[]; readonly load?: number };

/**
 * A developer's time for a bottle and a push. Without a push rule of its own the sheet gives no
 * answer: the rules in circulation are listed with their results, and one is asked for. The sheet
 * and bath are those whose figures hold for the bottle (`figuresFor`).
 */
export function developing(
  command: string,
  wanted: Readonly<Record<string, unknown>>,
  sheet: Sheet,
  bath: Bath,
  look: BottleLook | undefined,
  stops: number | undefined,
  ruleId: string | undefined,
  { first, load }: Tank = {},
): Developing | undefined {
  if (bath.time === undefined) return undefined;
  const batch = bath.mix?.total.value;
  const before = look === undefined ? undefined : workBefore(look.bottle, batch, first, load);
  const { time: base, reuse } = bath;
  const follows = (push?: NonNullable<Stage["follows"]>["push"]): Pick<Worked, "follows"> =>
    reuse === undefined || look === undefined
      ? {}
      : {
          follows: {
            base,
            reuse,
            ...(push === undefined ? {} : { push }),
            ...(batch === undefined ? {} : { batch }),
          },
        };
  const plainTime = developerTime(bath, before, undefined);
  if (plainTime?.ok !== true) return undefined;
  if (stops === undefined || stops === 0) return { found: { ...plainTime.value, ...follows() } };
  if (Math.abs(stops) > MOST_STOPS) {
    return {
      reply: refuse(
        "too-far",
        `${showStops(stops)} is further than any rule reaches. Give at most ${MOST_STOPS} stops.`,
        { say: `At most ${MOST_STOPS} stops.` },
      ),
    };
  }
  const own = bath.push ?? chosenRule(sheet, bath, ruleId);
  if (own === undefined) {
    return { reply: whichRule(command, wanted, sheet, bath.time.value, plainTime.value, stops) };
  }
  const pushed = developerTime(bath, before, { stops, rule: own });
  if (pushed === undefined) return undefined;
  if (pushed.ok) return { found: { ...pushed.value, ...follows({ stops, rule: own }) } };
  return {
    reply: refuse(pushed.error.kind, explainPush(pushed.error), {
      say: "The push rule does not reach that far.",
    }),
  };
}

function chosenRule(sheet: Sheet, bath: Bath, id: string | undefined): PushRule | undefined {
  const found = circulatingRules(sheet.process).find((rule) => rule.id === id);
  return found === undefined || bath.time === undefined
    ? undefined
    : asPushRule(found, bath.time.value);
}

/** No rule, no answer: what people use, what each comes to here, and which it shall be. */
function whichRule(
  command: string,
  wanted: Readonly<Record<string, unknown>>,
  sheet: Sheet,
  base: Seconds,
  now: DeveloperTime,
  stops: number,
): Reply {
  const rules = circulatingRules(sheet.process);
  const results = rules.flatMap((one) => {
    const result = pushTime(now.time.value, base, asPushRule(one, base), stops);
    return result.ok ? [{ one, time: result.value.time }] : [];
  });
  if (results.length === 0) {
    return refuse(
      "no-push-rule",
      `The ${sheet.name} sheet has no push rule, and I know none for ${sheet.process}. Give the time yourself: start developer for 5:00.`,
      { say: "No push rule. Give the time yourself." },
    );
  }
  const options: Option[] = results.map(({ one }) => ({ word: one.word, value: one.id }));
  const rows: Json[] = results.map(({ one, time }) => ({
    rule: one.id,
    time_s: time,
    source: one.source,
    grade: one.grade,
  }));
  return askFor(
    command,
    wanted,
    "pushRule",
    `The ${sheet.name} sheet has no push rule. People use several for ${showStops(stops)}. Which?`,
    options,
    {
      lines: [
        ...results.map(
          ({ one, time }) =>
            `${one.word}: ${showDuration(time)} (${one.text}) [${showOrigin(asPushRule(one, base).origin)}]`,
        ),
        "They disagree; yours may say another. Teach it: correct sheet and its name, then its push line.",
      ],
      say: `No push rule on the sheet. Which of ${results.length}?`,
      figures: {
        rules: { value: rows, origin: { kind: "computed", source: "each rule on this time" } },
        time_base_s: { value: base, origin: now.base.origin },
      },
      facts: { push: stops },
    },
  );
}

/** What changed the sheet's time, as lines of a plan and as values. */
export function correctionLines({ base, corrections, time }: DeveloperTime): readonly string[] {
  const changes = corrections.filter(({ by }) => Math.abs(by) >= 0.5);
  if (changes.length === 0) return [];
  const sums = changes.map(
    ({ kind, by }) => `${by < 0 ? "−" : "+"}${showDuration(seconds(Math.abs(by)))} ${kind}`,
  );
  return [
    `Developer ${showDuration(time.value)}: sheet ${showDuration(base.value)}, ${sums.join(", ")}.`,
    ...changes.map(({ how }) => `  ${how}`),
  ];
}

export function correctionFigures({ base, corrections }: DeveloperTime): Record<string, Shown> {
  const figures: Record<string, Shown> = {};
  if (corrections.length === 0) return figures;
  figures.time_base_s = { value: base.value, origin: base.origin };
  for (const { kind, by, how } of corrections) {
    const key = kind === "re-use" ? "reuse_s" : "push_s";
    figures[key] = { value: by, origin: { kind: "computed", source: how } };
  }
  return figures;
}

export const developingValues: Readonly<Record<string, string>> = {
  time_base_s: "the sheet's own developer time, s; missing when nothing changes it",
  reuse_s: "what the film done before adds, s",
  push_s: "what the push adds, s; negative for a pull",
  push: "stops of push, negative for a pull; missing when there is none",
  rules: "rules to choose from: rule, time_s, source, grade",
};
