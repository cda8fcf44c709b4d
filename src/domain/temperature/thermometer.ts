import { err, ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsius,
  celsiusDifference,
  type Instant,
  later,
  secondsBetween,
} from "../units/quantity.ts";
import { showDifference, showTemperature } from "../units/show.ts";
import {
  checkTemperatures,
  explainImpossible,
  type ImpossibleTemperature,
} from "./bath-temperature.ts";

const DAY = 86_400;
/** Thermometers that disagree by more, °C, are a slip or a broken one: our own bound, no source. */
const MOST_OFFSET = 5;
/** A newer check stands for older ones this near in temperature, °C: our own figure. */
const SAME_POINT = 3;

/** Both thermometers in one bath. */
export type ThermometerCheck = {
  readonly at: Instant;
  /** What this thermometer read, °C. */
  readonly read: Celsius;
  /** What the reference read, °C. */
  readonly reference: Celsius;
};

export type Thermometer = {
  readonly name: string;
  readonly checks: readonly ThermometerCheck[];
  /** The one all others are held against: never corrected, never unverified. */
  readonly isReference?: boolean | undefined;
};

export type CheckLimits = {
  /** Days after which a check no longer counts. */
  readonly days: number;
  /** °C from the checked temperature up to which its offset is believed. */
  readonly reach: CelsiusDifference;
};

/** Half a year and 10 °C: our own figures, no source. Ice water proves 0 °C and nothing near 38. */
export const CHECK_LIMITS: CheckLimits = { days: 180, reach: celsiusDifference(10) };

export type ThermometerError =
  | ImpossibleTemperature
  | {
      readonly kind: "offset-too-large";
      readonly offset: CelsiusDifference;
      readonly most: CelsiusDifference;
    };

/** What a thermometer reads too high, °C; negative where it reads too low. */
export const offsetOf = ({ read, reference }: ThermometerCheck): CelsiusDifference =>
  celsiusDifference(read - reference);

/**
 * A check as it may be kept.
 *
 * @param read       what this thermometer read, °C
 * @param reference  what the trusted one read in the same bath, °C
 * @returns `impossible-temperature` outside 0 to 100 °C, `offset-too-large` beyond 5 °C
 */
export function takeCheck(
  at: Instant,
  read: Celsius,
  reference: Celsius,
): Result<ThermometerCheck, ThermometerError> {
  const wrong = checkTemperatures({ thermometer: read, reference });
  if (wrong) return err(wrong);
  const check = { at, read, reference };
  const offset = offsetOf(check);
  if (Math.abs(offset) > MOST_OFFSET) {
    return err({ kind: "offset-too-large", offset, most: celsiusDifference(MOST_OFFSET) });
  }
  return ok(check);
}

/** Whether an offset may be believed for a reading. Only the first two are verified. */
export type Trust =
  | { readonly kind: "reference" }
  | { readonly kind: "verified"; readonly check: ThermometerCheck }
  | { readonly kind: "never-checked" }
  | { readonly kind: "check-too-old"; readonly check: ThermometerCheck; readonly days: number }
  | {
      readonly kind: "check-too-far";
      readonly check: ThermometerCheck;
      readonly by: CelsiusDifference;
    };

export const isVerified = (trust: Trust): boolean =>
  trust.kind === "reference" || trust.kind === "verified";

/** A reading with both values: what was read stays what was read. */
export type CorrectedReading = {
  readonly thermometer: string;
  readonly at: Instant;
  /** As the thermometer showed it, °C. */
  readonly read: Celsius;
  /** `read` less the offset, °C. */
  readonly corrected: Celsius;
  readonly offset: CelsiusDifference;
  readonly trust: Trust;
};

/**
 * A reading corrected by the check nearest to it in temperature, among checks made by then; a
 * newer check stands for older ones within 3 °C of it. An old check still corrects, marked; one
 * too far away in temperature does not, since an offset is known only near where it was found.
 *
 * @param at    when it was read
 * @param read  °C as shown
 * @returns both values and how far to trust them; `impossible-temperature` outside 0 to 100 °C
 */
export function correctReading(
  thermometer: Thermometer,
  read: Celsius,
  at: Instant,
  limits: CheckLimits = CHECK_LIMITS,
): Result<CorrectedReading, ImpossibleTemperature> {
  const wrong = checkTemperatures({ [thermometer.name]: read });
  if (wrong) return err(wrong);
  const trust = trustIn(thermometer, read, at, limits);
  const applies = trust.kind === "verified" || trust.kind === "check-too-old";
  const offset = applies ? offsetOf(trust.check) : celsiusDifference(0);
  const corrected = celsius(read - offset);
  return ok({ thermometer: thermometer.name, at, read, corrected, offset, trust });
}

function trustIn(thermometer: Thermometer, read: Celsius, at: Instant, limits: CheckLimits): Trust {
  if (thermometer.isReference === true) return { kind: "reference" };
  const distance = (check: ThermometerCheck): number => Math.abs(check.read - read);
  const [nearest] = standing(thermometer.checks, at).toSorted((a, b) => distance(a) - distance(b));
  if (nearest === undefined) return { kind: "never-checked" };
  if (distance(nearest) > limits.reach + 1e-9) {
    return { kind: "check-too-far", check: nearest, by: celsiusDifference(distance(nearest)) };
  }
  const days = secondsBetween(nearest.at, at) / DAY;
  return days > limits.days
    ? { kind: "check-too-old", check: nearest, days }
    : { kind: "verified", check: nearest };
}

/** The checks made by `at` that no newer one at the same point stands for, newest first. */
function standing(checks: readonly ThermometerCheck[], at: Instant): readonly ThermometerCheck[] {
  const kept: ThermometerCheck[] = [];
  for (const check of checks.filter((one) => one.at <= at).toSorted((a, b) => b.at - a.at)) {
    if (kept.every((newer) => Math.abs(newer.read - check.read) > SAME_POINT)) kept.push(check);
  }
  return kept;
}

/**
 * When a thermometer should be held against the reference again: so many days after its newest
 * check. Undefined for the reference, and for one that was never checked: that is due now.
 */
export function recheckDue(
  thermometer: Thermometer,
  limits: CheckLimits = CHECK_LIMITS,
): Instant | undefined {
  if (thermometer.isReference === true || thermometer.checks.length === 0) return undefined;
  const newest = thermometer.checks.reduce((a, b) => (b.at > a.at ? b : a));
  return later(newest.at, limits.days * DAY);
}

export function explainThermometer(error: ThermometerError): string {
  if (error.kind === "impossible-temperature") return explainImpossible(error);
  return `They differ by ${showDifference(error.offset)}, more than ${showDifference(error.most)}: put both in one bath, wait a minute, and read them again.`;
}

/** Why a reading is not verified, for the log; undefined where it is. */
export function explainTrust(trust: Trust): string | undefined {
  switch (trust.kind) {
    case "reference":
    case "verified":
      return undefined;
    case "never-checked":
      return "Unverified: this thermometer was never held against the reference.";
    case "check-too-old":
      return `Unverified: its last check is ${Math.round(trust.days)} days old.`;
    case "check-too-far":
      return `Unverified: it was checked at ${showTemperature(trust.check.read)}, ${showDifference(trust.by)} away.`;
  }
}
