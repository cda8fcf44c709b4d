import type { Bench } from "../domain/session/bench.ts";
import {
  correctReading,
  explainTrust,
  isVerified,
  type Thermometer,
} from "../domain/temperature/thermometer.ts";
import type { Celsius, Instant } from "../domain/units/quantity.ts";

export type Corrected = {
  /** Lower case; missing when none was named and the bench does not have just one. */
  readonly thermometer: string | undefined;
  readonly read: Celsius;
  readonly corrected: Celsius;
  readonly unverified: string | undefined;
  /** It was not named: the bench has only this one. */
  readonly taken: boolean;
};

/**
 * A reading as it is to be kept: both values, and why it is not verified. A bench's only
 * thermometer need not be named.
 */
export function readOn(
  bench: Bench,
  named: string | undefined,
  read: Celsius,
  at: Instant,
): Corrected {
  const names = Object.keys(bench.thermometers);
  const only = names.length === 1 ? names[0] : undefined;
  const name = named?.toLowerCase() ?? only;
  const taken = named === undefined && name !== undefined;
  if (name === undefined) {
    const unverified = "Unverified: the thermometer was not named.";
    return { thermometer: undefined, read, corrected: read, unverified, taken };
  }
  const thermometer: Thermometer = Object.hasOwn(bench.thermometers, name)
    ? (bench.thermometers[name] ?? unknown(name))
    : unknown(name);
  const reading = correctReading({ ...thermometer, name }, read, at);
  if (!reading.ok)
    return { thermometer: name, read, corrected: read, unverified: undefined, taken };
  const { corrected, trust } = reading.value;
  const suspect = bench.suspects?.find((one) => one.kind === "thermometer" && one.name === name);
  const unverified =
    suspect === undefined
      ? isVerified(trust)
        ? undefined
        : explainTrust(trust)
      : `Unverified: this thermometer is marked suspect, ${suspect.why}.`;
  return { thermometer: name, read, corrected, unverified, taken };
}

const unknown = (name: string): Thermometer => ({ name, checks: [] });
