import {
  type Country,
  needsCountry,
  type VolumeUnit,
  volumeIn,
} from "../../domain/units/conversions.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { readCountry } from "./country.ts";
import { type Measured, readMeasured, readRow } from "./measured.ts";
import { bareNumber } from "./number.ts";
import { byLength, orBare, phrases } from "./phrases.ts";
import { readSpokenHundreds } from "./spoken-hundreds.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** Millilitres. */
export type VolumeValue = number | Unsettled<number> | Unreadable;

/** A unit, and whose it is where that was said. */
export type Unit = { readonly name: VolumeUnit; readonly country?: Country | undefined };

/** What people call the units: common usage, no source. "Ounce" is fluid where a volume is wanted. */
const readName = phrases<VolumeUnit>([
  ["mL", "ml, mls, mil, mils, mill, mills, milliliter, milliliters, millilitre, millilitres"],
  ["mL", "cc, ccs, cubic centimetre, cubic centimetres, cubic centimeter, cubic centimeters"],
  ["L", "l, lt, ltr, liter, liters, litre, litres"],
  ["fl oz", "fl oz, floz, oz, ozs, ounce, ounces, fluid ounce, fluid ounces, fluid oz, fl ounces"],
  ["pint", "pint, pints, pt, pts"],
  ["quart", "quart, quarts, qt, qts"],
  ["gallon", "gallon, gallons, gal, gals"],
  ["cup", "cup, cups"],
  ["dram", "dram, drams, drachm, drachms, fluid dram, fluid drams, fl dram, fl drams"],
  ["minim", "minim, minims"],
]);

const bareUnits: ReadonlySet<string> = new Set([
  "quart",
  "litre",
  "liter",
  "pint",
  "gallon",
  "cup",
]);
const bareOrCountry = (word: string): boolean =>
  bareUnits.has(word) || readCountry([word], 0).length > 0;

/** The slot `{volumeUnit}`, with its country before or behind it: "us quarts", "fluid ounces imperial". */
export function readVolumeUnit(words: readonly string[], from: number): readonly Reading<Unit>[] {
  const before = readCountry(words, from)[0];
  const country = before?.value;
  return byLength(
    readName(words, before?.next ?? from).flatMap(({ value: name, next }) => {
      const plain = { value: { name, country }, next };
      if (country !== undefined || !needsCountry(name)) return [plain];
      const behind = readCountry(words, next)[0];
      return behind === undefined
        ? [plain]
        : [{ value: { name, country: behind.value }, next: behind.next }, plain];
    }),
  );
}

const size = (unit: Unit): number => volumeIn(1, unit.name, unit.country ?? "us");

/** "six fifty mil": only millilitres are counted that way. */
const readLoose = (words: readonly string[], from: number): readonly Reading<Measured<Unit>>[] =>
  readSpokenHundreds(words, from).flatMap(({ value: amount, next }) =>
    readVolumeUnit(words, next)
      .filter((unit) => unit.value.name === "mL")
      .map((unit) => ({ value: { amount, unit: unit.value }, next: unit.next })),
  );

const readOne = (words: readonly string[], from: number) =>
  readMeasured(words, from, readVolumeUnit, bareOrCountry);

/** A volume whose unit was said: "500 ml", "a quart and a half", "1 quart 8 ounces". */
export function readVolumeWithUnit(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<VolumeValue>[] {
  const rows = readRow(words, from, readOne, (upper, lower) => size(lower) < size(upper));
  const loose = readLoose(words, from).map(({ value, next }) => ({ value: [value], next }));
  return byLength([...rows, ...loose]).map(({ value, next }) => ({
    value: settle(value, words, from, next, listening),
    next,
  }));
}

/** The slot `{volume}`: as above, or a bare number, which asks for its unit. */
export const readVolume = (
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<VolumeValue>[] =>
  orBare(readVolumeWithUnit(words, from, listening), () =>
    bareNumber(words, from).map(({ value, next }) => ({
      value: isUnreadable(value) ? value : askUnit(value, words, from, next, listening),
      next,
    })),
  );

function settle(
  parts: readonly Measured<Unit>[],
  words: readonly string[],
  from: number,
  next: number,
  listening: Listening,
): VolumeValue {
  const asked = parts.some(({ unit }) => needsCountry(unit.name) && unit.country === undefined);
  const us = total(parts, "us");
  const imperial = total(parts, "imperial");
  if (us === undefined || imperial === undefined) return unreadable(words, from, next);
  if (!asked || listening.country !== undefined)
    return listening.country === "imperial" ? imperial : us;
  return {
    unsettled: "country",
    heard: words.slice(from, next).join(" "),
    choices: [
      { word: "us", value: us },
      { word: "imperial", value: imperial },
    ],
  };
}

/** The sum in mL, with `country` where none was said; undefined when that is no finite number. */
function total(parts: readonly Measured<Unit>[], country: Country): number | undefined {
  let sum = 0;
  for (const { amount, unit } of parts) {
    if (isUnreadable(amount) || !Number.isFinite(amount * 5000)) return undefined;
    sum += volumeIn(amount, unit.name, unit.country ?? country);
  }
  return sum;
}

function askUnit(
  amount: number,
  words: readonly string[],
  from: number,
  next: number,
  { country }: Listening,
): VolumeValue {
  if (!Number.isFinite(amount * 5000)) return unreadable(words, from, next);
  const ounces: readonly { word: string; country: Country }[] =
    country === undefined
      ? [
          { word: "us ounces", country: "us" },
          { word: "imperial ounces", country: "imperial" },
        ]
      : [{ word: "ounces", country }];
  return {
    unsettled: "volume-unit",
    heard: words.slice(from, next).join(" "),
    choices: [
      { word: "millilitres", value: amount },
      { word: "litres", value: amount * 1000 },
      ...ounces.map(({ word, country: whose }) => ({
        word,
        value: volumeIn(amount, "fl oz", whose) as number,
      })),
    ],
  };
}
