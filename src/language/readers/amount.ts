import { type Country, massIn, volumeIn } from "../../domain/units/conversions.ts";
import { isUnsettled, type Listening, type Reading, type Unsettled } from "../reader.ts";
import { readMassWithUnit } from "./mass.ts";
import { readMeasured } from "./measured.ts";
import { bareNumber } from "./number.ts";
import { byLength, orBare, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";
import { readVolumeWithUnit } from "./volume.ts";

/** A volume or a mass, in base units. */
export type Amount = { readonly ml: number } | { readonly g: number };
type AmountValue = Amount | Unsettled<Amount> | Unreadable;

/** An ounce of which nobody said whether it is poured or weighed. */
const readOunce = phrases<"ounce">([["ounce", "oz, ozs, ounce, ounces"]]);

type Read = readonly Reading<AmountValue>[];

/** The slot `{amount}`: volume or mass. Plain ounces and bare numbers ask which is meant. */
export function readAmount(words: readonly string[], from: number, listening: Listening): Read {
  const volumes = readVolumeWithUnit(words, from, listening).map(({ value, next }) => ({
    value: poured(value),
    next,
  }));
  const masses = readMassWithUnit(words, from).map(({ value, next }) => ({
    value: isUnreadable(value) ? value : { g: value },
    next,
  }));
  const ounces = readMeasured(words, from, readOunce).map(({ value: { amount }, next }) => ({
    value: askOunces(amount, words, from, next, listening),
    next,
  }));
  const doubtful = new Set(ounces.map(({ next }) => next));
  const clear = [...volumes, ...masses].filter(({ next }) => !doubtful.has(next));
  return orBare<AmountValue>(byLength<AmountValue>([...clear, ...ounces]), () =>
    bareNumber(words, from).map(({ value, next }) => ({
      value: askUnit(value, words, from, next),
      next,
    })),
  );
}

function poured(value: number | Unsettled<number> | Unreadable): AmountValue {
  if (typeof value === "number") return { ml: value };
  if (!isUnsettled(value)) return value;
  const choices = value.choices.map((choice) => ({
    word: choice.word,
    value: { ml: choice.value },
  }));
  return { ...value, choices };
}

function askOunces(
  amount: number | Unreadable,
  words: readonly string[],
  from: number,
  next: number,
  { country }: Listening,
): AmountValue {
  if (isUnreadable(amount) || !Number.isFinite(amount * 1000)) return unreadable(words, from, next);
  const fluid = (word: string, whose: Country) => ({
    word,
    value: { ml: volumeIn(amount, "fl oz", whose) },
  });
  return {
    unsettled: "mass-unit",
    heard: words.slice(from, next).join(" "),
    choices: [
      { word: "by weight", value: { g: massIn(amount, "oz") } },
      ...(country === undefined
        ? [fluid("us fluid", "us"), fluid("imperial fluid", "imperial")]
        : [fluid("fluid", country)]),
    ],
  };
}

function askUnit(
  amount: number | Unreadable,
  words: readonly string[],
  from: number,
  next: number,
): AmountValue {
  if (isUnreadable(amount)) return unreadable(words, from, next);
  return {
    unsettled: "mass-unit",
    heard: words.slice(from, next).join(" "),
    choices: [
      { word: "grams", value: { g: amount } },
      { word: "millilitres", value: { ml: amount } },
    ],
  };
}
