import { err, ok, type Result } from "../../domain/result.ts";
import type { BathAnswers } from "../../domain/teaching/answers.ts";
import { fromFahrenheit } from "../../domain/units/conversions.ts";
import { celsius, celsiusDifference } from "../../domain/units/quantity.ts";
import { isUnsettled, type Listening, type SlotReader } from "../../language/reader.ts";
import { readers } from "../../language/readers/all.ts";
import { isUnreadable } from "../../language/readers/unreadable.ts";
import { toWords } from "../../language/words.ts";
import { readRange } from "./read-range.ts";

type Band = NonNullable<BathAnswers["temperature"]>;

const scales = new Set(["c", "f", "°c", "°f", "celsius", "fahrenheit", "centigrade"]);
const small = new Set(["it", "is", "about", "the", "at", "for", "to", "says", "with", "in"]);

/**
 * A temperature with its band: "37.8 plus or minus 0.15", "100 F ± 0.25", "35 to 40". The band is
 * a difference: it converts with 5/9 alone, and without a scale of its own it has the temperature's.
 */
export function readBand(typed: string, listening: Listening): Result<Band, string> {
  const [main = "", band = ""] = typed.split(
    /±|\+\s*\/?\s*-|\bplus (?:or )?minus\b|\bgive or take\b/i,
  );
  const range = band === "" ? readRange(typed, listening) : undefined;
  if (range !== undefined) return range;
  const aim = whole(readers.temperature, main, listening, "a temperature, like 37.8 C");
  if (!aim.ok) return aim;
  const temperature = celsius(aim.value);
  if (band.trim() === "") return ok({ temperature });
  const { words } = toWords(band);
  const scaled = words.some((word) => scales.has(word));
  const text = scaled
    ? band
    : `${band} ${isFahrenheit(main, aim.value, listening) ? "fahrenheit" : "celsius"}`;
  const bare =
    scaled || words.some((word) => word.startsWith("degree"))
      ? text
      : text.replace(/ (\w+)$/, " degrees $1");
  const half = whole(readers.difference, bare, listening, "a band, like plus or minus 0.2");
  return half.ok ? ok({ temperature, tolerance: celsiusDifference(half.value) }) : half;
}

/** Was the temperature said, or taken, in Fahrenheit? */
function isFahrenheit(main: string, value: number, listening: Listening): boolean {
  const { words } = toWords(main);
  if (words.some((word) => ["f", "°f", "fahrenheit"].includes(word))) return true;
  const from = words.findIndex((word) => !small.has(word));
  const number = readers.number(words, Math.max(0, from), listening)[0]?.value;
  return typeof number === "number" && Math.abs(fromFahrenheit(number) - value) < 1e-6;
}

function whole(
  read: SlotReader,
  text: string,
  listening: Listening,
  wanted: string,
): Result<number, string> {
  const { words, typed } = toWords(text);
  const from = Math.max(
    0,
    words.findIndex((word) => !small.has(word)),
  );
  const value = read(words, from, listening).find(({ next }) => next === words.length)?.value;
  if (typeof value === "number") return ok(value);
  if (isUnreadable(value)) {
    return err(`"${value.unreadable}" is no number I can use. Give me ${wanted}.`);
  }
  if (isUnsettled(value)) {
    return err(
      `"${value.heard}": ${value.choices.map(({ word }) => word).join(" or ")}? Say it with its unit.`,
    );
  }
  return err(`I heard "${typed.slice(0, 60)}". Give me ${wanted}.`);
}
