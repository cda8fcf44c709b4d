import { type Degrees, fromFahrenheit } from "../../domain/units/conversions.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { readBelowHundred, small } from "./cardinal.ts";
import { readScaleBehind } from "./degrees.ts";
import { bareNumber } from "./number.ts";
import { byLength } from "./phrases.ts";
import { readSpokenHundreds } from "./spoken-hundreds.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** Degrees Celsius. */
export type TemperatureValue = number | Unsettled<number> | Unreadable;

/**
 * The slot `{temperature}`. A scale that was said is taken at its word, however absurd the value.
 * Without one, the bench's habit decides where the value is a darkroom temperature on that scale,
 * or the only scale on which it is one; anything else asks.
 */
export const readTemperature = (
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<TemperatureValue>[] => read(words, from, listening, false);

/**
 * The slot `{reading}`: what a thermometer in a bath reads. The same, but a bare number that would
 * only be taken for Fahrenheit by its size is asked about: 99 may be a slip for 39.
 */
export const readReading = (
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<TemperatureValue>[] => read(words, from, listening, true);

function read(
  words: readonly string[],
  from: number,
  listening: Listening,
  strict: boolean,
): readonly Reading<TemperatureValue>[] {
  return byLength(
    readTemperatureNumbers(words, from).flatMap((number) =>
      readScaleBehind(words, number.next).map(({ value: scale, next }) => ({
        value: isUnreadable(number.value)
          ? unreadable(words, from, next)
          : settle(number.value, scale, words.slice(from, next).join(" "), listening, strict),
        next,
      })),
    ),
  );
}

/** The number of a temperature, before any scale. */
export const readTemperatureNumbers = (
  words: readonly string[],
  from: number,
): readonly Reading<number | Unreadable>[] => [
  ...readSpokenTenth(words, from),
  ...readSpokenHundreds(words, from),
  ...bareNumber(words, from),
];

/** "thirty seven five" is 37.5, "ninety eight six" 98.6. Common usage, no source. */
function readSpokenTenth(words: readonly string[], from: number): readonly Reading<number>[] {
  const head = readBelowHundred(words, from);
  if (head === undefined || head.value < 10) return [];
  const tenth = small.get(words[head.next] ?? "");
  const single = tenth !== undefined && tenth >= 1 && tenth <= 9;
  return single ? [{ value: Number(`${head.value}.${tenth}`), next: head.next + 1 }] : [];
}

/** Where a bare number is believed: known habit, or no habit known. Common practice, no source. */
const believed: Readonly<Record<"habit" | "none", Record<Degrees, readonly [number, number]>>> = {
  habit: { C: [0, 65], F: [59, 150] },
  none: { C: [0, 59], F: [60, 150] },
};

function settle(
  amount: number,
  scale: Degrees | undefined,
  heard: string,
  { degrees }: Listening,
  strict: boolean,
): TemperatureValue {
  const within = (of: "habit" | "none", which: Degrees): boolean => {
    const [least, most] = believed[of][which];
    return amount >= least && amount <= most;
  };
  const guessed = (["C", "F"] as const).filter((which) =>
    degrees === undefined
      ? within("none", which) && !(strict && which === "F")
      : which === degrees && within("habit", which),
  );
  const taken = scale ?? guessed[0];
  const fahrenheit = fromFahrenheitSafely(amount);
  if (fahrenheit === undefined) return { unreadable: heard };
  if (taken !== undefined) return taken === "C" ? amount : fahrenheit;
  return {
    unsettled: "degrees",
    heard,
    choices: [
      { word: "celsius", value: amount },
      { word: "fahrenheit", value: fahrenheit },
    ],
  };
}

const fromFahrenheitSafely = (amount: number): number | undefined =>
  Number.isFinite(amount * 5) ? fromFahrenheit(amount) : undefined;
