import { err, ok, type Result } from "../../domain/result.ts";
import type { BathAnswers, Measure } from "../../domain/teaching/answers.ts";
import { volumeIn } from "../../domain/units/conversions.ts";
import { grams, millilitres } from "../../domain/units/quantity.ts";
import { isUnsettled, type Listening } from "../../language/reader.ts";
import { readers } from "../../language/readers/all.ts";
import { isUnreadable } from "../../language/readers/unreadable.ts";
import { asTyped, toWords, type Words } from "../../language/words.ts";

type Parts = NonNullable<BathAnswers["parts"]>;
type Amount = { readonly ml?: number; readonly g?: number; readonly next: number };

const dry = new Set(["powder", "dry", "powdered"]);
const wet = new Set(["liquid", "concentrate", "fluid"]);
/** Names that stand alone, since all of it goes in: a letter, "A1", a starter. */
const PART = /^([a-z]\d?|\d[a-z]|starter)$/i;
const opening = new Set(["part", "parts", "the", "all", "of", "is", "are", "then", "and"]);

/**
 * Parts in the order they go in: a name, how much of it, and whether it is a powder. Commas and
 * "and" part them; spoken without a pause, an amount ends each.
 */
export function readParts(
  typed: string,
  listening: Listening,
  measure: Measure,
): Result<Parts, string> {
  const parts: Parts[number][] = [];
  for (const piece of typed.split(/[,;]|\b(?:and|then)\b/i)) {
    const heard = toWords(piece);
    for (let at = 0; at < heard.words.length; ) {
      while (opening.has(heard.words[at] ?? "")) at += 1;
      if (at >= heard.words.length) break;
      const part = readPart(heard, at, listening, measure);
      if (!part.ok) return part;
      parts.push(part.value.part);
      at = part.value.next;
    }
  }
  if (parts.length === 0) return err("Name the parts in order, like A 100 ml, B 50 ml.");
  if (parts.length > 12) return err("Twelve parts at most. Read them again.");
  return ok(parts);
}

function readPart(
  heard: Words,
  from: number,
  listening: Listening,
  measure: Measure,
): Result<{ readonly part: Parts[number]; readonly next: number }, string> {
  const { words } = heard;
  const named = nameEnd(heard, from, listening);
  const name = asTyped(heard, from, named);
  if (/^\d/.test(name) || named === from) {
    return err(
      `I heard a number where a part's name should be: "${words[from] ?? ""}". Say A 100 ml, B 50 ml.`,
    );
  }
  let next = named;
  while (["is", "of", "all"].includes(words[next] ?? "")) next += 1;
  const amount = amountAt(heard, next, listening, measure);
  if (!amount.ok) return amount;
  next = amount.value.next;
  const { ml, g } = amount.value;
  let form: "liquid" | "powder" = g === undefined ? "liquid" : "powder";
  for (; dry.has(words[next] ?? "") || wet.has(words[next] ?? ""); next += 1) {
    form = dry.has(words[next] ?? "") ? "powder" : "liquid";
  }
  if (next === named && !PART.test(name)) {
    return err(`How much of "${name}"? Say A 100 ml, B 50 ml, or A all.`);
  }
  if ((ml ?? 1) <= 0 || (g ?? 1) <= 0) {
    return err(`Part ${name} needs an amount above zero. Read me the parts again.`);
  }
  const measured =
    ml !== undefined
      ? { amount: { ml: millilitres(ml) } }
      : g !== undefined
        ? { amount: { g: grams(g) } }
        : {};
  const short = name.length === 1 ? name.toUpperCase() : name;
  return ok({ part: { name: short, form, ...measured }, next });
}

/**
 * Where a name ends: at the amount, if one follows; else after one word, since "A B C" are three
 * parts. The first word is always a name: "a" is one here, not a number.
 */
function nameEnd(heard: Words, from: number, listening: Listening): number {
  const { words } = heard;
  for (let at = from + 1; at < words.length && at <= from + 4; at += 1) {
    const digit = /^[\d½¼¾]/.test(words[at] ?? "");
    const amount = readers.amount(words, at, listening)[0];
    if (digit || (amount !== undefined && !["a", "an"].includes(words[at] ?? ""))) return at;
    if (["is", "of", "all", "powder", "liquid"].includes(words[at] ?? "")) return at;
  }
  return from + 1;
}

/** An amount, if there is one: a bare number is in the paper's measure. */
function amountAt(
  heard: Words,
  at: number,
  listening: Listening,
  measure: Measure,
): Result<Amount, string> {
  const { words } = heard;
  const reading = at >= words.length ? undefined : readers.amount(words, at, listening)[0];
  if (reading === undefined) return ok({ next: at });
  const { value, next } = reading;
  if (isUnreadable(value)) {
    return err(`"${value.unreadable}" is no amount I can use. Read me the parts again.`);
  }
  if (!isUnsettled(value)) return ok({ ...(value as { ml?: number; g?: number }), next });
  const powder = dry.has(words[next] ?? "");
  if (value.choices.some(({ word }) => word === "millilitres")) {
    const number = readers.number(words, at, listening)[0];
    if (typeof number?.value === "number") {
      if (!powder) {
        const ml = measure === "metric" ? number.value : volumeIn(number.value, "fl oz", measure);
        return ok({ ml, next: number.next });
      }
      if (measure === "metric") return ok({ g: number.value, next: number.next });
    }
  }
  const meant = value.choices.filter(({ word }) => word.includes(powder ? "weight" : "fluid"));
  const only = meant[0];
  if (meant.length === 1 && only !== undefined) {
    return ok({ ...(only.value as { ml?: number; g?: number }), next });
  }
  const choices = value.choices.map(({ word }) => word).join(" or ");
  return err(`"${value.heard}": ${choices}? Say it with its unit, like 100 ml or 12 g.`);
}
