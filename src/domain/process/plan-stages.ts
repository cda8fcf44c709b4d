import { commonPractice, type Figure, type Origin } from "../origin.ts";
import type { Stage } from "../session/run.ts";
import { type Celsius, type Seconds, seconds, wholeMilliseconds } from "../units/quantity.ts";
import type { Bath } from "./sheet.ts";

/** Pouring out takes the last 10 s of a time (SS0514, p. 2-13, para. b(2); NAVEDTRA 14209, small-tank steps; both read). */
export const DRAIN: { readonly value: Seconds; readonly origin: Origin } = {
  value: seconds(10),
  origin: {
    kind: "published",
    source: "SS0514 Basic Color Photography, p. 2-13, last 10 s drain (read)",
  },
};

/** Film begins to gas in a closed tank of blix: the cap comes off early (common practice, no source). */
export const VENT: { readonly value: Seconds; readonly origin: Origin } = {
  value: seconds(10),
  origin: commonPractice,
};

export type PlanTrouble =
  | { readonly kind: "no-time"; readonly bath: string }
  | {
      readonly kind: "too-short";
      readonly bath: string;
      readonly time: Seconds;
      readonly drain: Seconds;
    };

/** What the user said in the sentence that starts the run, and what outranks the sheet. */
export type Said = {
  readonly time?: Seconds | undefined;
  readonly temperature?: Celsius | undefined;
  /** A developer's time after re-use and push; the user's own word outranks it. */
  readonly worked?:
    | {
        readonly time: Figure<Seconds>;
        readonly base: Figure<Seconds>;
        readonly corrections: readonly NonNullable<Stage["corrections"]>[number][];
        /** How it is worked out again when its bottle does more film before it is poured. */
        readonly follows?: Stage["follows"];
      }
    | undefined;
};

const toldOrigin: Origin = { kind: "told" };

/**
 * One stage from one bath of a sheet. `said` goes into developers and single stages: the user's
 * word outranks the sheet and its origin says so.
 *
 * @returns the stage without any instant, or what is missing
 */
export function planStage(
  bath: Bath,
  said: Said,
): { ok: true; stage: Stage } | { ok: false; trouble: PlanTrouble } {
  const worked = said.time === undefined ? said.worked : undefined;
  const time = said.time ?? worked?.time.value ?? bath.time?.value;
  const timeOrigin =
    said.time === undefined ? (worked?.time.origin ?? bath.time?.origin) : toldOrigin;
  if (time === undefined || timeOrigin === undefined) {
    return { ok: false, trouble: { kind: "no-time", bath: bath.name } };
  }
  const drain = bath.drain ?? DRAIN;
  if (time <= drain.value) {
    return { ok: false, trouble: { kind: "too-short", bath: bath.name, time, drain: drain.value } };
  }
  const temperature = said.temperature ?? bath.temperature?.value;
  const vent = bath.vent ?? (bath.kind === "blix" ? VENT : undefined);
  const { agitation } = bath;
  return {
    ok: true,
    stage: {
      bath: bath.name,
      kind: bath.kind,
      sense: bath.sense,
      time: wholeMilliseconds(time),
      timeOrigin,
      ...(worked === undefined || worked.corrections.length === 0
        ? {}
        : { timeBase: worked.base.value, corrections: [...worked.corrections] }),
      ...(worked?.follows === undefined ? {} : { follows: worked.follows }),
      temperature,
      temperatureOrigin: said.temperature === undefined ? bath.temperature?.origin : toldOrigin,
      tolerance: bath.tolerance?.value,
      ...(bath.timeLaw === undefined ? {} : { timeLaw: bath.timeLaw }),
      ...(bath.compensation === undefined ? {} : { compensation: bath.compensation }),
      drain: drain.value,
      drainOrigin: drain.origin,
      agitation:
        agitation === undefined
          ? undefined
          : {
              initial: agitation.initial.value,
              every: agitation.every?.value,
              each: agitation.each?.value,
              origin: agitation.every?.origin ?? agitation.initial.origin,
            },
      vent: vent?.value,
      ventOrigin: vent?.origin,
    },
  };
}
