import { reuseTime, type WorkBefore } from "../chemistry/reuse-time.ts";
import { type Origin, showOrigin } from "../origin.ts";
import { explainPush, type PushTrouble, pushTime } from "../process/push-time.ts";
import type { PushRule, ReuseRule } from "../process/sheet.ts";
import { err, ok, type Result } from "../result.ts";
import { type Celsius, type Seconds, seconds } from "../units/quantity.ts";
import { plain, showCelsius, showDuration } from "../units/show.ts";
import { FACTOR_LIMITS, type FactorLimits, insideLimits } from "./limits.ts";
import { explainTime, type TimeError, timeAt } from "./time-from-temperature.ts";
import { isTime, type TimeLaw } from "./time-law.ts";

/** More than is ever meant: guards against slips, our own. */
const MOST_STOPS = 10;
const MOST_DONE = 500;

/** All that can change a developer's time before it begins. */
export type Corrections = {
  /**
   * The sheet's time, s, at its aim. Where the sheet has a table, its time at the planned
   * temperature is the sheet's own figure too: give that with `aim` there, and nothing is corrected.
   */
  readonly time: Seconds;
  readonly origin: Origin;
  readonly aim?: Celsius | undefined;
  readonly reuse?: { readonly rule: ReuseRule; readonly before: WorkBefore } | undefined;
  readonly push?: { readonly rule: PushRule; readonly stops: number } | undefined;
  /** The bath as it will be; needs `aim`. */
  readonly temperature?: { readonly at: Celsius; readonly law: TimeLaw | undefined } | undefined;
  readonly limits?: FactorLimits | undefined;
};

/** One line of `why`. */
export type CorrectionStep = {
  readonly kind: "sheet" | "re-use" | "push" | "temperature";
  /** s after this step; two ends once a step is an estimate. */
  readonly from: Seconds;
  readonly to: Seconds;
  readonly how: string;
};

export type Corrected = {
  /** s; `from` and `to` are the same unless it is an estimate. */
  readonly from: Seconds;
  readonly to: Seconds;
  readonly estimate: boolean;
  readonly steps: readonly CorrectionStep[];
  /** A re-use table ended before this tank. */
  readonly beyondReuse: boolean;
};

export type CorrectionError =
  | TimeError
  | PushTrouble
  | { readonly kind: "no-aim" }
  | { readonly kind: "not-a-time"; readonly step: "re-use" | "push" }
  | {
      readonly kind: "beyond-limits";
      readonly base: Seconds;
      readonly from: Seconds;
      readonly to: Seconds;
      readonly limits: FactorLimits;
      readonly steps: readonly CorrectionStep[];
    };

/**
 * A developer's time with everything that changes it, in one fixed order: the sheet's time at its
 * aim, then re-use, then push or pull, then temperature. Re-use and push come first because sheets
 * give them for the aim; temperature comes last because it multiplies whatever the time is then.
 * The product is limited, to half and double unless told otherwise (our own bound): beyond it the
 * sheet's figures say nothing any more.
 *
 * @returns the time in s, unrounded, with a line for every step; `beyond-limits` with the figures,
 *   or the error of the step that could not be made
 */
export function correctedTime(given: Corrections): Result<Corrected, CorrectionError> {
  const { time: base, origin, aim, reuse, push, temperature, limits = FACTOR_LIMITS } = given;
  if (!isTime(base)) return err({ kind: "no-time", time: base });
  const exact = (kind: CorrectionStep["kind"], time: Seconds, how: string): CorrectionStep => ({
    kind,
    from: time,
    to: time,
    how,
  });
  const atAim = aim === undefined ? "" : ` at ${showCelsius(aim)}`;
  const steps = [exact("sheet", base, `${showDuration(base)}${atAim}; ${showOrigin(origin)}`)];
  let time = base;
  let beyondReuse = false;

  if (reuse !== undefined) {
    if (!countable(reuse.before)) return err({ kind: "not-a-time", step: "re-use" });
    const used = reuseTime(base, reuse.rule, reuse.before);
    if (used.time <= 0) return err({ kind: "not-a-time", step: "re-use" });
    time = used.time;
    beyondReuse = used.beyond;
    steps.push(exact("re-use", time, used.how));
  }
  if (push !== undefined) {
    if (!(Math.abs(push.stops) <= MOST_STOPS)) return err({ kind: "not-a-time", step: "push" });
    const pushed = pushTime(time, base, push.rule, push.stops);
    if (!pushed.ok) return pushed;
    time = pushed.value.time;
    steps.push(exact("push", time, pushed.value.how));
  }
  let [from, to] = [time, time];
  let estimate = false;
  if (temperature !== undefined) {
    if (aim === undefined) return err({ kind: "no-aim" });
    const timed = timeAt(time, aim, temperature.at, temperature.law);
    if (!timed.ok) return timed;
    estimate = timed.value.kind === "estimate";
    [from, to] =
      timed.value.kind === "estimate"
        ? [timed.value.from, timed.value.to]
        : [timed.value.time, timed.value.time];
    steps.push({ kind: "temperature", from, to, how: timed.value.how });
  }
  if (!insideLimits(from / base, limits) || !insideLimits(to / base, limits)) {
    return err({ kind: "beyond-limits", base, from, to, limits, steps });
  }
  return ok({ from, to, estimate, steps, beyondReuse });
}

const countable = ({ units, batches }: WorkBefore): boolean =>
  units >= 0 && batches >= 0 && units <= MOST_DONE && batches <= MOST_DONE;

export function explainCorrection(error: CorrectionError): string {
  switch (error.kind) {
    case "not-in-table":
    case "no-time-left":
      return explainPush(error);
    case "no-aim":
      return "I need the temperature the sheet's time is for before I can correct it for another.";
    case "not-a-time":
      return error.step === "re-use"
        ? "The film done before and the sheet's rule leave no time: read both again."
        : `I need the push as a number of stops, ${MOST_STOPS} at most.`;
    case "beyond-limits": {
      const { base, from, to, limits } = error;
      const shown =
        from === to ? showDuration(from) : `${showDuration(from)} to ${showDuration(to)}`;
      const least = showDuration(seconds(base * limits.least));
      const most = showDuration(seconds(base * limits.most));
      return `All corrections together make ${shown} of the sheet's ${showDuration(base)}, ${plain(from / base, 2)} times${from === to ? "" : ` to ${plain(to / base, 2)} times`}, and I go from ${least} to ${most}: bring the bath nearer its aim, push less, or use fresh developer.`;
    }
    default:
      return explainTime(error);
  }
}
