import { asPushRule, circulatingRules } from "../data/push-rules.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { type Promised, workBefore } from "../domain/chemistry/work-before.ts";
import { showOrigin } from "../domain/origin.ts";
import {
  type Correction,
  type DeveloperTime,
  developerTime,
} from "../domain/process/developer-time.ts";
import { pushTime, showStops } from "../domain/process/push-time.ts";
import type { Bath, PushRule, Sheet } from "../domain/process/sheet.ts";
import type { Stage } from "../domain/session/run.ts";
import { FACTOR_LIMITS } from "../domain/temperature/limits.ts";
import { type Celsius, type Seconds, seconds } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { type Json, type Option, type Reply, refuse, type Shown } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";
import { settleTime } from "./settle-time.ts";

/** No tank is pushed further (common practice: three stops is the end of what makers speak of). */
const MOST_STOPS = 3;

type Follows = NonNullable<Stage["follows"]>;

/** A time, and how it is worked out again when its bottle does more film before it is poured. */
export type Worked = DeveloperTime & { readonly follows?: Stage["follows"] };

export type Developing =
  | {
      readonly found: Worked;
      /** The bath is to be brought to the sheet's temperature instead. */
      readonly atAim?: boolean | undefined;
    }
  | { readonly reply: Reply };

/** The bath's temperature, and what is to be done where it only gives an estimate. */
export type Warmth = {
  readonly at: Celsius;
  readonly estimate: "sheet" | "middle" | undefined;
};

/** What else is known of the tank: film of others that pours first, its own film in units, warmth. */
type Tank = {
  readonly first?: readonly Promised[];
  readonly load?: number;
  readonly warmth?: Warmth | undefined;
};

/**
 * A developer's time for a bottle, a push and a temperature. Without a push rule of its own the
 * sheet gives no answer: the rules in circulation are listed with their results, and one is asked
 * for. The sheet and bath are those whose figures hold for the bottle (`figuresFor`).
 */
export function developing(
  command: string,
  wanted: Readonly<Record<string, unknown>>,
  sheet: Sheet,
  bath: Bath,
  look: BottleLook | undefined,
  stops: number | undefined,
  ruleId: string | undefined,
  { first, load, warmth }: Tank = {},
): Developing | undefined {
  if (bath.time === undefined) return undefined;
  const batch = bath.mix?.total.value;
  const before = look === undefined ? undefined : workBefore(look.bottle, batch, first, load);
  const settled = (push?: Follows["push"]): Developing | undefined => {
    const time = developerTime(bath, before, push, warmth?.at);
    const found = settleTime(command, wanted, sheet, time, warmth);
    return found === undefined || "reply" in found || look === undefined
      ? found
      : following(found, bath, batch, push, warmth);
  };
  if (stops === undefined || stops === 0) return settled();
  const plainTime = developerTime(bath, before, undefined);
  if (plainTime?.ok !== true) return settleTime(command, wanted, sheet, plainTime, undefined);
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
  return settled({ stops, rule: own });
}

/** A time a re-use rule is part of, with all that it takes to work it out again. */
function following(
  { found, atAim }: Extract<Developing, { found: Worked }>,
  { time, reuse, temperature, tolerance, timeLaw }: Bath,
  batch: Follows["batch"],
  push: Follows["push"],
  warmth: Warmth | undefined,
): Developing {
  if (time === undefined || reuse === undefined) return { found, atAim };
  const middle = found.estimate !== undefined && warmth?.estimate === "middle";
  const warm =
    warmth === undefined || temperature === undefined || atAim === true
      ? {}
      : {
          warmth: {
            at: warmth.at,
            aim: temperature,
            ...(tolerance === undefined ? {} : { tolerance }),
            ...(timeLaw === undefined ? {} : { law: timeLaw }),
            ...(middle ? { middle } : {}),
          },
        };
  const follows: Follows = {
    base: time,
    reuse,
    ...(push === undefined ? {} : { push }),
    ...(batch === undefined ? {} : { batch }),
    ...warm,
    limits: { ...FACTOR_LIMITS },
  };
  return { found: { ...found, follows }, atAim };
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
  const [only] = results.length === 1 ? results : [];
  if (only !== undefined) options.push({ word: "yes", value: only.one.id });
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
    only === undefined
      ? `The ${sheet.name} sheet has no push rule. People use several for ${showStops(stops)}. Which?`
      : `The ${sheet.name} sheet has no push rule. I know one for ${showStops(stops)}. Take it?`,
    options,
    {
      lines: [
        ...results.map(
          ({ one, time }) =>
            `${one.word}: ${showDuration(time)} (${one.text}) [${showOrigin(asPushRule(one, base).origin)}]`,
        ),
        `${only === undefined ? "They disagree; yours" : "Yours"} may say another. Teach it: correct sheet and its name, then its push line.`,
      ],
      say:
        only === undefined
          ? `No push rule on the sheet. Which of ${results.length}?`
          : "No push rule on the sheet. Take the one I know?",
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

const keys: Record<Correction["kind"], string> = {
  "re-use": "reuse_s",
  push: "push_s",
  temperature: "temperature_s",
  drift: "drift_s",
};

export function correctionFigures({ base, corrections }: DeveloperTime): Record<string, Shown> {
  const figures: Record<string, Shown> = {};
  if (corrections.length === 0) return figures;
  figures.time_base_s = { value: base.value, origin: base.origin };
  for (const { kind, by, how } of corrections) {
    const key = keys[kind];
    figures[key] = { value: by, origin: { kind: "computed", source: how } };
  }
  return figures;
}

export const developingValues: Readonly<Record<string, string>> = {
  time_base_s: "the sheet's own developer time, s; missing when nothing changes it",
  reuse_s: "what the film done before adds, s",
  temperature_s: "what the bath's temperature adds, s; negative for a warm one",
  estimate_from_s: "shorter end of an estimate, s; missing unless it is one",
  estimate_to_s: "its longer end, s",
  push_s: "what the push adds, s; negative for a pull",
  push: "stops of push, negative for a pull; missing when there is none",
  rules: "rules to choose from: rule, time_s, source, grade",
};
