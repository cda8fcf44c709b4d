import { err, ok, type Result } from "../../domain/result.ts";
import type { BathAnswers } from "../../domain/teaching/answers.ts";
import { fromFahrenheit, toFahrenheit } from "../../domain/units/conversions.ts";
import { celsius, celsiusDifference } from "../../domain/units/quantity.ts";
import { plain } from "../../domain/units/show.ts";
import { isUnsettled, type Listening } from "../../language/reader.ts";
import { readers } from "../../language/readers/all.ts";
import { toWords } from "../../language/words.ts";

type Band = NonNullable<BathAnswers["temperature"]>;
type Scale = "C" | "F";

const OPENING = /^(?:(?:it is|it says|says|about|anywhere|from|at|in|a range of|the)\s+)+/i;
const FORMS = [
  /^between\s+(.+)\s+and\s+(.+)$/i,
  /^(\d[\d.]*\s*(?:°|degrees?)?\s*[cf]?)\s*[-–—−]\s*(\d.*)$/i,
  /^(.+?)\s+(?:up\s+|down\s+)?(?:to|through)\s+(.+)$/i,
];

/**
 * "35 to 40", "95-105 F", "between 35 and 40": the middle, with half the span as its band.
 *
 * @returns undefined where no range was said; an error where its ends cannot be read
 */
export function readRange(typed: string, listening: Listening): Result<Band, string> | undefined {
  const said = typed.trim().replace(OPENING, "");
  const found = FORMS.map((form) => form.exec(said)).find((match) => match !== null);
  const [, first = "", second = ""] = found ?? [];
  const named = new Set([scaleOf(first), scaleOf(second)].filter((scale) => scale !== undefined));
  const [given] = named;
  const ends = [first, second].map((text) => readEnd(text, given, listening));
  const [one, other] = ends;
  if (one === undefined || other === undefined) return undefined;
  if ("ask" in one) return err(one.ask);
  if ("ask" in other) return err(other.ask);
  const whole = `${first.trim()} to ${second.trim()}`;
  if (named.size > 1 || one.scale !== other.scale) {
    return err(`"${whole}": say both ends in one unit, like 35 to 40 C.`);
  }
  const [low, high] = one.at <= other.at ? [one.at, other.at] : [other.at, one.at];
  if (high - low < 1e-6) return err(`"${whole}" is one temperature. Give both ends, or only one.`);
  const shown = [low, high].map((at) =>
    plain(one.scale === "F" ? toFahrenheit(celsius(at)) : at, 2),
  );
  return ok({
    temperature: celsius((low + high) / 2),
    tolerance: celsiusDifference((high - low) / 2),
    told: `${shown.join(" to ")} °${one.scale}`,
  });
}

function scaleOf(text: string): Scale | undefined {
  const last = toWords(text).words.at(-1) ?? "";
  if (/^°?(c|celsius|centigrade)$/.test(last)) return "C";
  return /^°?(f|fahrenheit)$/.test(last) ? "F" : undefined;
}

/** One end, in °C; in the other end's unit where it has none of its own. */
function readEnd(
  text: string,
  given: Scale | undefined,
  listening: Listening,
): { readonly at: number; readonly scale: Scale } | { readonly ask: string } | undefined {
  const own = scaleOf(text);
  const { words } = toWords(own === undefined && given !== undefined ? `${text} ${given}` : text);
  const value = readers
    .temperature(words, 0, listening)
    .find(({ next }) => next === words.length)?.value;
  if (isUnsettled(value)) {
    const choices = value.choices.map(({ word }) => word).join(" or ");
    return { ask: `"${value.heard}": ${choices}? Say it with its unit.` };
  }
  if (typeof value !== "number") return undefined;
  return { at: value, scale: own ?? given ?? bareScale(words, value, listening) };
}

/** Which scale a bare figure was taken for. */
function bareScale(words: readonly string[], value: number, listening: Listening): Scale {
  const number = readers.number(words, 0, listening)[0]?.value;
  const isFahrenheit =
    typeof number === "number" && Math.abs(fromFahrenheit(number) - value) < 1e-6;
  return isFahrenheit ? "F" : "C";
}
