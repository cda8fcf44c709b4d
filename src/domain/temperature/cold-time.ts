import { type Origin, showOrigin } from "../origin.ts";
import { err, ok, type Result } from "../result.ts";
import { type Celsius, type CelsiusDifference, type Seconds, seconds } from "../units/quantity.ts";
import { plain, showCelsius, showDifference, showTemperature } from "../units/show.ts";
import {
  checkTemperatures,
  explainImpossible,
  type ImpossibleTemperature,
} from "./bath-temperature.ts";
import { isTime } from "./time-law.ts";

/** A minimum time grows in a cold bath: `factor` times for every `step` below `below`, exponentially. */
export type ColdRule = {
  readonly id: string;
  /** Kinds of bath it is for. */
  readonly baths: readonly string[];
  /** The bath's normal temperature, °C; at and above it the time stands. */
  readonly below: Celsius;
  readonly step: CelsiusDifference;
  readonly factor: number;
  /** The rule says nothing of colder baths, °C. */
  readonly lowest: Celsius;
  readonly origin: Origin;
};

/**
 * Baths whose sheet sets them warmer, °C, have no cold rule: it was written for baths of 20 °C. The
 * upper end of normal hand processing is 75 °F (SS0509-8, p. 13, read).
 */
const WARMEST_AIM = 24;

export type ColdError =
  | ImpossibleTemperature
  | { readonly kind: "no-time"; readonly time: number }
  | { readonly kind: "bad-rule"; readonly id: string }
  | { readonly kind: "too-cold"; readonly temperature: Celsius; readonly lowest: Celsius }
  | { readonly kind: "warm-process"; readonly temperature: Celsius; readonly aim: Celsius };

export type ColdTime = {
  readonly time: Seconds;
  /** On the normal time; 1 at and above the rule's temperature. */
  readonly factor: number;
  readonly how: string;
};

export const coldRuleFor = (rules: readonly ColdRule[], bath: string): ColdRule | undefined =>
  rules.find(({ baths }) => baths.includes(bath));

/**
 * The time of a fixing or washing bath that is colder than normal.
 *
 * @param time  the normal time, s, above 0
 * @param at    °C of the bath
 * @param aim   °C its sheet sets, where it does
 * @returns `too-cold` below the rule's end, `warm-process` where the sheet sets a warm bath and
 *   this one is below it, since no cold rule was found for those
 */
export function coldTime(
  rule: ColdRule,
  time: Seconds,
  at: Celsius,
  aim?: Celsius,
): Result<ColdTime, ColdError> {
  if (!isTime(time)) return err({ kind: "no-time", time });
  const wrong = checkTemperatures({ bath: at, ...(aim === undefined ? {} : { aim }) });
  if (wrong) return err(wrong);
  if (!(rule.step > 0 && rule.factor >= 1 && rule.factor <= 10))
    return err({ kind: "bad-rule", id: rule.id });
  if (aim !== undefined && aim > WARMEST_AIM && at < rule.below) {
    return err({ kind: "warm-process", temperature: at, aim });
  }
  if (at < rule.lowest - 1e-9)
    return err({ kind: "too-cold", temperature: at, lowest: rule.lowest });
  const factor = rule.factor ** (Math.max(0, rule.below - at) / rule.step);
  return ok({
    time: seconds(time * factor),
    factor,
    how: `at ${showCelsius(at)} × ${plain(factor, 2)}: ${plain(rule.factor, 2)} times for every ${showDifference(rule.step)} below ${showCelsius(rule.below)}; ${showOrigin(rule.origin)}`,
  });
}

export function explainCold(error: ColdError): string {
  switch (error.kind) {
    case "impossible-temperature":
      return explainImpossible(error);
    case "no-time":
      return "I need the bath's normal time before I can lengthen it.";
    case "bad-rule":
      return "The rule for cold baths cannot be used: its step or factor is not above zero.";
    case "too-cold":
      return `${showTemperature(error.temperature)} is colder than the rule goes, which ends at ${showCelsius(error.lowest)}: warm the bath.`;
    case "warm-process":
      return `Your sheet sets this bath at ${showCelsius(error.aim)} and no rule was found for one at ${showTemperature(error.temperature)}: warm the bath.`;
  }
}
