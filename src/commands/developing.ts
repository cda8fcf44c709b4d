import { asPushRule, circulatingRules } from "../data/push-rules.ts";
import { workDone } from "../domain/chemistry/bottle.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import type { WorkBefore } from "../domain/chemistry/reuse-time.ts";
import { showOrigin } from "../domain/origin.ts";
import {
  type Correction,
  type DeveloperTime,
  developerTime,
} from "../domain/process/developer-time.ts";
import { pushTime, showStops } from "../domain/process/push-time.ts";
import type { Bath, PushRule, Sheet } from "../domain/process/sheet.ts";
import { type Celsius, type Seconds, seconds } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { type Json, type Option, type Reply, refuse, type Shown } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";
import { settleTime } from "./settle-time.ts";

/** No tank is pushed further (common practice: three stops is the end of what makers speak of). */
const MOST_STOPS = 3;

/**
 * What a bottle has done, for the batch volume its sheet speaks of: half a batch tires twice as
 * fast. The volume itself is scaled, never a rule of thumb for it.
 */
export function workBefore(look: BottleLook): WorkBefore {
  const { bottle, bath } = look;
  const batch = bath?.mix?.total.value;
  const scale = batch === undefined || bottle.volume >= batch ? 1 : batch / bottle.volume;
  return { units: workDone(bottle) * scale, batches: bottle.batches ?? 0 };
}

export type Developing =
  | {
      readonly found: DeveloperTime;
      /** The bath is to be brought to the sheet's temperature instead. */
      readonly atAim?: boolean | undefined;
    }
  | { readonly reply: Reply };

/** The bath's temperature, and what is to be done where it only gives an estimate. */
export type Warmth = {
  readonly at: Celsius;
  readonly estimate: "sheet" | "middle" | undefined;
};

/**
 * A developer's time for a bottle and a push. Without a push rule of its own the sheet gives no
 * answer: the rules in circulation are listed with their results, and one is asked for.
 */
export function developing(
  command: string,
  wanted: Readonly<Record<string, unknown>>,
  sheet: Sheet,
  bath: Bath,
  look: BottleLook | undefined,
  stops: number | undefined,
  ruleId: string | undefined,
  warmth?: Warmth,
): Developing | undefined {
  if (bath.time === undefined) return undefined;
  const before = look === undefined ? undefined : workBefore(look);
  const plainTime = developerTime(bath, before, undefined, stops ? undefined : warmth?.at);
  if (stops === undefined || stops === 0 || plainTime?.ok === false) {
    return settleTime(command, wanted, sheet, plainTime, warmth);
  }
  if (plainTime === undefined) return undefined;
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
  const pushed = developerTime(bath, before, { stops, rule: own }, warmth?.at);
  return settleTime(command, wanted, sheet, pushed, warmth);
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
