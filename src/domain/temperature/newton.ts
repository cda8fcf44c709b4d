import { err, ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsius,
  type Instant,
  later,
  type Seconds,
  secondsBetween,
} from "../units/quantity.ts";
import { showCelsius, showDuration } from "../units/show.ts";
import {
  checkTemperatures,
  explainImpossible,
  type ImpossibleTemperature,
} from "./bath-temperature.ts";
import type { BathReading } from "./path.ts";

/** What two readings must differ by to tell a rate, °C: a thermometer shows no less; our own figure. */
const LEAST_MOVE = 0.05;

/** A body left to itself in a room: its difference to the room falls by the same share each minute. */
export type Cooling = {
  /** When it had `temperature`: the second reading. */
  readonly at: Instant;
  readonly temperature: Celsius;
  readonly room: Celsius;
  /** 1/min, above 0; for warming too. */
  readonly perMinute: number;
};

export type NewtonError =
  | ImpossibleTemperature
  | { readonly kind: "not-later"; readonly between: Seconds }
  | { readonly kind: "not-moving"; readonly temperature: Celsius; readonly between: Seconds }
  /** It began where the room is, or went past it. */
  | { readonly kind: "past-room"; readonly temperature: Celsius; readonly room: Celsius }
  /** It moves the wrong way: a heater is on, or the room is not as said. */
  | { readonly kind: "away-from-room"; readonly temperature: Celsius; readonly room: Celsius }
  | { readonly kind: "no-tolerance"; readonly tolerance: number }
  /** The target is not between the bath and the room. */
  | { readonly kind: "never"; readonly target: Celsius; readonly room: Celsius }
  /** It was there before the second reading. */
  | { readonly kind: "passed"; readonly target: Celsius; readonly ago: Seconds };

/**
 * The rate of cooling or warming from two readings: k = ln((T0 - Ta) / (T1 - Ta)) / minutes,
 * Newton's law (textbook). A heater, a lid taken off or a stirred bath changes it.
 *
 * @param room  °C around it
 */
export function learnCooling(
  first: BathReading,
  second: BathReading,
  room: Celsius,
): Result<Cooling, NewtonError> {
  const wrong = checkTemperatures({
    "first reading": first.temperature,
    "second reading": second.temperature,
    room,
  });
  if (wrong) return err(wrong);
  const between = secondsBetween(first.at, second.at);
  if (!(between > 0)) return err({ kind: "not-later", between });
  const { at, temperature } = second;
  if (Math.abs(first.temperature - temperature) < LEAST_MOVE) {
    return err({ kind: "not-moving", temperature, between });
  }
  const before = first.temperature - room;
  const after = temperature - room;
  if (before === 0 || after / before <= 0) return err({ kind: "past-room", temperature, room });
  if (Math.abs(after) > Math.abs(before)) return err({ kind: "away-from-room", temperature, room });
  return ok({ at, temperature, room, perMinute: Math.log(before / after) / (between / 60) });
}

/** The temperature forecast for an instant, °C; before the second reading it looks back. */
export function temperatureAt(
  { at, temperature, room, perMinute }: Cooling,
  when: Instant,
): Celsius {
  const minutes = secondsBetween(at, when) / 60;
  return celsius(room + (temperature - room) * Math.exp(-perMinute * minutes));
}

/** When it reaches a target; `never` if the room does not lie beyond it, `passed` if it was there before. */
export function whenReaches(cooling: Cooling, target: Celsius): Result<Instant, NewtonError> {
  const wrong = checkTemperatures({ target });
  if (wrong) return err(wrong);
  const wait = secondsTo(cooling, target);
  if (wait === undefined) return err({ kind: "never", target, room: cooling.room });
  if (wait < 0)
    return err({
      kind: "passed",
      target,
      ago: secondsBetween(later(cooling.at, wait), cooling.at),
    });
  return ok(later(cooling.at, wait));
}

export type InsideWindow = {
  readonly from: Instant;
  /** Missing: the room itself is inside the tolerance, it stays. */
  readonly to: Instant | undefined;
  readonly lasts: Seconds | undefined;
};

/**
 * From when to when it is inside target ± tolerance with nobody touching it. `from` may lie before
 * the second reading, where it is inside already.
 *
 * @param tolerance  half the band, °C, above 0
 */
export function whenInside(
  cooling: Cooling,
  target: Celsius,
  tolerance: CelsiusDifference,
): Result<InsideWindow, NewtonError> {
  if (!(tolerance > 0 && Number.isFinite(tolerance)))
    return err({ kind: "no-tolerance", tolerance });
  const wrong = checkTemperatures({ target });
  if (wrong) return err(wrong);
  const towards = cooling.temperature >= cooling.room ? tolerance : -tolerance;
  const enters = secondsTo(cooling, celsius(target + towards));
  if (enters === undefined) return err({ kind: "never", target, room: cooling.room });
  const from = later(cooling.at, enters);
  const leaves = secondsTo(cooling, celsius(target - towards));
  if (leaves === undefined) return ok({ from, to: undefined, lasts: undefined });
  const to = later(cooling.at, leaves);
  if (leaves < 0) return err({ kind: "passed", target, ago: secondsBetween(to, cooling.at) });
  return ok({ from, to, lasts: secondsBetween(from, to) });
}

/** s from the second reading, negative before it; undefined for what lies at or beyond the room. */
function secondsTo({ temperature, room, perMinute }: Cooling, target: Celsius): number | undefined {
  const ratio = (temperature - room) / (target - room);
  if (!(ratio > 0 && Number.isFinite(ratio))) return undefined;
  return (60 * Math.log(ratio)) / perMinute;
}

export function explainNewton(error: NewtonError): string {
  switch (error.kind) {
    case "impossible-temperature":
      return explainImpossible(error);
    case "not-later":
      return "I need two readings some minutes apart, the later one second.";
    case "not-moving":
      return `It has not moved from ${showCelsius(error.temperature)} in ${showDuration(error.between)}: read it again in some minutes.`;
    case "past-room":
      return `With the room at ${showCelsius(error.room)}, a bath at ${showCelsius(error.temperature)} began there or went past it: read the room and the bath again.`;
    case "away-from-room":
      return `It moves away from the room's ${showCelsius(error.room)}: switch the heater off, or read the room again.`;
    case "no-tolerance":
      return "I need a tolerance above zero.";
    case "never":
      return `It will not come to ${showCelsius(error.target)} by itself in a room of ${showCelsius(error.room)}: add hot or cold water.`;
    case "passed":
      return `It was at ${showCelsius(error.target)} already, ${showDuration(error.ago)} before the last reading.`;
  }
}
