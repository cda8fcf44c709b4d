import type { Origin } from "../origin.ts";
import { ok, type Result } from "../result.ts";
import { type CelsiusDifference, type Instant, later, type Seconds } from "../units/quantity.ts";
import { BANDS, type Band, type Bands, bandOf } from "./bands.ts";
import {
  type Drift,
  type DriftError,
  type DriftStage,
  driftOf,
  driftSpread,
  notBefore,
} from "./drift.ts";
import { FACTOR_LIMITS, type FactorLimits, insideLimits } from "./limits.ts";
import type { BathReading } from "./path.ts";
import { questionReading, type ReadingQuestion } from "./question-reading.ts";
import type { TimeLaw } from "./time-law.ts";

/** A pour-out that would move by less is left where it is, s: our own figure. */
export const LEAST_CHANGE = 1;
/** "Adjust a little" moves the time by this share of it at most: our own figure, no source. */
export const A_LITTLE = 0.1;

/** Said with every change of time in a colour process. */
export const LAYERS_CAUTION: { readonly text: string; readonly origin: Origin } = {
  text: "Time restores density, not the balance of the layers.",
  origin: { kind: "published", source: "FAOL, physical process control, p. 10 (read)" },
};

export type CompensationRules = {
  /** The sheet says that its time may be changed for temperature. */
  readonly allowed: boolean;
  readonly law?: TimeLaw | undefined;
  /** The sheet's, °C; inside it there is nothing to correct. */
  readonly tolerance?: CelsiusDifference | undefined;
  /** A colour process: the caution about layers goes with every change. */
  readonly colour: boolean;
  /** The sheet's own time, s, which the limits are meant for; missing: the stage's. */
  readonly base?: Seconds | undefined;
  readonly limits?: FactorLimits | undefined;
  readonly bands?: Bands | undefined;
};

/** What keeping to the plan is worth, s at the aim and percent; two ends where it is an estimate. */
export type DriftSize = {
  readonly estimate: boolean;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly fromPercent: number;
  readonly toPercent: number;
};

export type Offer = "keep" | "adjust" | "log";

/** What readings come to, whichever way it is decided. */
type Weighed = {
  readonly band: Band;
  readonly size: DriftSize;
  /** What lies under it: the development done, the reading furthest off. */
  readonly drift: Drift;
};

export type Settled =
  | (Weighed & { readonly kind: "nothing" })
  | (Weighed & {
      readonly kind: "replan";
      readonly time: Seconds;
      readonly pourOut: Instant;
      readonly end: Instant;
      /** Against the plan so far, s. */
      readonly change: Seconds;
      /** Pour out at once: there is enough development already. */
      readonly atOnce: boolean;
      readonly caution: string | undefined;
    })
  | (Weighed & {
      readonly kind: "state";
      readonly why: "not-allowed" | "estimate-only" | "beyond-limits" | "already-out";
      readonly offers: readonly Offer[];
      /** What "adjust a little" would make the time, s; missing once the film is out. */
      readonly adjusted: Seconds | undefined;
      readonly caution: string | undefined;
    });

export type Decision = { readonly kind: "question"; readonly question: ReadingQuestion } | Settled;

/**
 * The question an odd reading leads to before it is believed. One that cannot be is no question.
 *
 * @param earlier  the stage's readings so far, corrected
 * @param reading  the new one, corrected; may be earlier than others
 */
export function askFirst(
  stage: DriftStage,
  rules: CompensationRules,
  earlier: readonly BathReading[],
  reading: BathReading,
  now: Instant,
): ReadingQuestion | undefined {
  const question = questionReading(reading, earlier, stage.aim, rules.tolerance);
  if (question === undefined) return undefined;
  const measured = measure(stage, rules.law, [...earlier, reading], now);
  // Far outside a law is often a slip: ask before refusing.
  return measured.ok || measured.error.kind === "outside-law" ? question : undefined;
}

/**
 * What the readings of an exact stage lead to as they stand: a new one among them, one struck, or
 * all read anew. Pure: the caller moves the cue, says it once and logs it.
 *
 * Inside the sheet's tolerance, or where the pour-out would move by less than a second, nothing
 * happens. The time changes by itself only where the sheet allows it, its law is known and all
 * corrections together stay inside the limits; otherwise the error is stated and the person
 * chooses. Without readings the bath was at its aim.
 *
 * @param readings  corrected, in any order
 */
export function settle(
  stage: DriftStage,
  rules: CompensationRules,
  readings: readonly BathReading[],
  now: Instant,
): Result<Settled, DriftError> {
  const measured = measure(stage, rules.law, readings, now);
  if (!measured.ok) return measured;
  const { drift, size } = measured.value;
  const band = bandOf(drift.worst, rules.bands ?? BANDS);
  const weighed = { band, size, drift };
  const tolerated =
    rules.tolerance !== undefined && Math.abs(drift.worst) <= rules.tolerance + 1e-9;
  const fixed = isFixed(stage, now);
  const small = fixed
    ? Math.max(Math.abs(size.from), Math.abs(size.to)) < LEAST_CHANGE
    : Math.abs(drift.change) < LEAST_CHANGE;
  const moved = stage.planned !== undefined && stage.planned !== stage.time;
  if (small || (tolerated && !moved)) return ok({ kind: "nothing", ...weighed });

  const caution = rules.colour ? LAYERS_CAUTION.text : undefined;
  const why = fixed ? "already-out" : whyNot(stage, rules, drift);
  if (why === undefined) {
    const { time, pourOut, end, change, overdone: atOnce } = drift;
    return ok({ kind: "replan", ...weighed, time, pourOut, end, change, atOnce, caution });
  }
  return ok({
    kind: "state",
    ...weighed,
    why,
    offers: fixed ? ["keep", "log"] : ["keep", "adjust", "log"],
    adjusted: fixed ? undefined : aLittle(stage, drift, now),
    caution,
  });
}

/** The film is out, or on its way: nothing moves any more, and only the size can be told. */
const isFixed = ({ start, time, planned = time, drain, out }: DriftStage, now: Instant): boolean =>
  out !== undefined || now >= later(start, planned - drain);

function whyNot(
  stage: DriftStage,
  { allowed, law, base, limits }: CompensationRules,
  drift: Drift,
): Extract<Decision, { kind: "state" }>["why"] | undefined {
  if (!allowed) return "not-allowed";
  if (law === undefined) return "estimate-only";
  const inside = insideLimits(drift.time / (base ?? stage.time), limits ?? FACTOR_LIMITS);
  return inside ? undefined : "beyond-limits";
}

/** Towards the right time, by a tenth of the time at most; never a pour-out in the past. */
function aLittle(stage: DriftStage, drift: Drift, now: Instant): Seconds {
  const most = stage.time * A_LITTLE;
  const by = Math.min(most, Math.max(-most, drift.time - stage.time));
  return notBefore(stage, now, stage.time + by);
}

/** With no law, the drift that changes the least speaks for the change, and both ends for the size. */
function measure(
  stage: DriftStage,
  law: TimeLaw | undefined,
  readings: readonly BathReading[],
  now: Instant,
): Result<{ readonly drift: Drift; readonly size: DriftSize }, DriftError> {
  if (law !== undefined) {
    const drift = driftOf(stage, law, readings, now);
    return drift.ok ? ok({ drift: drift.value, size: sizeOf(drift.value, drift.value) }) : drift;
  }
  const spread = driftSpread(stage, readings, now);
  if (!spread.ok) return spread;
  const { slow, fast } = spread.value;
  const larger = Math.abs(fast.change) >= Math.abs(slow.change);
  // A drift that is small at both ends is small.
  const drift = larger ? { ...slow, change: fast.change } : slow;
  return ok({ drift, size: { ...sizeOf(slow, fast), estimate: true } });
}

function sizeOf(one: Drift, other: Drift): DriftSize {
  const [less, more] = one.error <= other.error ? [one, other] : [other, one];
  return {
    estimate: false,
    from: less.error,
    to: more.error,
    fromPercent: less.percent,
    toPercent: more.percent,
  };
}
