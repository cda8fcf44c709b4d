import { isDeveloper } from "../domain/process/sheet.ts";
import { err, ok, type Result } from "../domain/result.ts";
import type { Answers, BathAnswers } from "../domain/teaching/answers.ts";
import type { Question } from "../domain/teaching/questions.ts";
import type { Country } from "../domain/units/conversions.ts";
import { volumeIn } from "../domain/units/conversions.ts";
import type { Listening, SlotReader } from "../language/reader.ts";
import { isUnsettled } from "../language/reader.ts";
import { readers } from "../language/readers/all.ts";
import { isUnreadable } from "../language/readers/unreadable.ts";
import { asTyped, toWords, type Words } from "../language/words.ts";

/** What was heard cannot be that: one sentence that says what to give. */
type NotRead = string;

const LEFT_OUT =
  /^(skip( it| that| this)?|none|nothing|not on (it|the sheet|the paper|there)|(it )?does not say|no|n\/a|leave (it )?out|unknown|i do not know|room temperature)$/;

/**
 * Reads the answer to a question of a sheet. The sheet's own measure decides what a bare number
 * and an ounce mean here; the bench's habits do not.
 *
 * @returns the value to keep, null where the paper does not say
 */
export function readAnswer(
  question: Question,
  text: string,
  answers: Answers,
  listening: Listening,
): Result<unknown, NotRead> {
  const heard = toWords(text);
  const said = heard.words.join(" ");
  if (LEFT_OUT.test(said)) {
    return question.optional ? ok(null) : err(`That one I need. ${question.title}`);
  }
  const measure = answers.measure ?? "metric";
  const country: Country | undefined = measure === "metric" ? undefined : measure;
  const ears: Listening = { ...listening, country };
  switch (question.wants) {
    case "name":
      return heard.typed.length > 40 || heard.words.length > 5
        ? err("A name of one to five words, please.")
        : ok(heard.typed);
    case "process":
      return readProcess(said);
    case "measure":
      return readMeasure(said);
    case "baths":
      return readBaths(heard, ears);
    case "volume":
      return readVolume(heard, ears, measure);
    case "warmth":
      return readNumber(readers.temperature, heard, ears, "a temperature, like 43 C");
    case "parts":
      return readParts(heard, ears, measure);
    case "time":
      return readTime(heard, ears, question, answers);
    case "temperature":
      return readTemperature(heard, ears);
    case "agitation":
      return readAgitation(heard, ears, question, answers);
    case "count":
      return readNumber(
        readers.number,
        withoutLast(heard, ["rolls", "roll", "units", "unit", "films", "film"]),
        ears,
        "a number of rolls, like 8",
      );
    case "keeps":
      return readKeeps(heard, ears);
  }
}

/** The first words that mean no more than "it is". */
const opening = new Set(["it", "is", "about", "the", "at", "for", "to", "says", "with", "in"]);

const begin = (words: readonly string[]): number =>
  Math.max(
    0,
    words.findIndex((word) => !opening.has(word)),
  );

const without = (words: readonly string[], from: number, next: number): readonly string[] => [
  ...words.slice(0, from),
  ...words.slice(next),
];

function withoutLast(heard: Words, words: readonly string[]): Words {
  const last = heard.words.at(-1);
  if (last === undefined || !words.includes(last) || heard.words.length < 2) return heard;
  return {
    ...heard,
    words: heard.words.slice(0, -1),
    original: heard.original.slice(0, -1),
    spans: heard.spans.slice(0, -1),
  };
}

/** A whole answer by one reader. A bare temperature with two meanings is put back with its choices. */
function readNumber(
  read: SlotReader,
  heard: Words,
  listening: Listening,
  wanted: string,
): Result<number, NotRead> {
  const from = begin(heard.words);
  const reading = read(heard.words, from, listening).find(
    ({ next }) => next === heard.words.length,
  );
  return settled(reading?.value, heard, wanted);
}

function settled(value: unknown, heard: Words, wanted: string): Result<number, NotRead> {
  if (typeof value === "number") return ok(value);
  if (isUnreadable(value))
    return err(`"${value.unreadable}" is no number I can use. Give me ${wanted}.`);
  if (isUnsettled(value)) {
    const words = value.choices.map(({ word }) => word).join(" or ");
    return err(`"${value.heard}": ${words}? Say it with its unit.`);
  }
  return err(`I heard "${heard.typed.slice(0, 60)}". Give me ${wanted}.`);
}

function readProcess(said: string): Result<string, NotRead> {
  if (/\bc-?\s?41\b|colou?r negative/.test(said)) return ok("C-41");
  if (/\be-?\s?6\b|reversal|slide/.test(said)) return ok("E-6");
  if (/\becn-?\s?2\b|motion|movie/.test(said)) return ok("ECN-2");
  if (/black|monochrome|b ?& ?w|b\/w/.test(said)) return ok("black-and-white");
  return err("C-41, E-6, ECN-2 or black-and-white: which does the paper say?");
}

function readMeasure(said: string): Result<Answers["measure"], NotRead> {
  if (/imperial|british|uk/.test(said)) return ok("imperial");
  if (/\bus\b|american|u\.s/.test(said)) return ok("us");
  if (/metric|ml|millilit|litre|liter|grams/.test(said)) return ok("metric");
  return err(
    "Millilitres, US ounces or Imperial ounces? If the paper has several, take millilitres.",
  );
}

const ordinals = ["first", "second", "third", "fourth", "fifth"];

function readBaths(heard: Words, listening: Listening): Result<Answers["baths"], NotRead> {
  const kinds: string[] = [];
  const { words } = heard;
  let at = begin(words);
  while (at < words.length) {
    const reading = readers.bath(words, at, listening)[0];
    if (reading !== undefined) {
      kinds.push(String(reading.value));
      at = reading.next;
    } else if (["and", "then", "next", "finally", "a", "last"].includes(words[at] ?? "")) at += 1;
    else {
      return err(
        `I do not know the bath "${heard.original[at] ?? ""}". I know developer, stop, bleach, fixer, blix, wash, stabilizer, prewash, reversal and more. Read them all again.`,
      );
    }
  }
  if (kinds.length === 0)
    return err("Name the baths in the order of use, like developer, blix, wash.");
  if (kinds.length > 12) return err("Twelve baths at most. Read them again.");
  const named = kinds.map((kind, index) => {
    const same = kinds.filter((other) => other === kind).length;
    const nth = kinds.slice(0, index).filter((other) => other === kind).length;
    return { kind, name: same === 1 ? kind : `${ordinals[nth] ?? `${nth + 1}th`} ${kind}` };
  });
  return ok(named);
}

/** Bare numbers are in the measure of the paper: that is what was just asked. */
function readVolume(
  heard: Words,
  listening: Listening,
  measure: NonNullable<Answers["measure"]>,
): Result<number, NotRead> {
  const from = begin(heard.words);
  const bare = readers
    .number(heard.words, from, listening)
    .find(({ next }) => next === heard.words.length);
  if (bare !== undefined && typeof bare.value === "number") {
    return ok(measure === "metric" ? bare.value : volumeIn(bare.value, "fl oz", measure));
  }
  return readNumber(readers.volume, heard, listening, "a volume with its unit, like 650 ml");
}

function readParts(
  heard: Words,
  listening: Listening,
  measure: NonNullable<Answers["measure"]>,
): Result<BathAnswers["parts"], NotRead> {
  const { words } = heard;
  const parts: NonNullable<BathAnswers["parts"]> = [];
  const between = new Set(["and", "then", "part", "parts", "of", "is", "are", "the"]);
  let at = 0;
  while (at < words.length) {
    if (between.has(words[at] ?? "")) {
      at += 1;
      continue;
    }
    const name = asTyped(heard, at, at + 1);
    if (/^\d/.test(name))
      return err(
        `I heard a number where a part's name should be: "${name}". Say A 100 ml, B 50 ml.`,
      );
    at += 1;
    while (["is", "of", "all"].includes(words[at] ?? "")) at += 1;
    const amount = amountAt(heard, at, listening, measure);
    if (!amount.ok) return amount;
    at = amount.value.next;
    const word = words[at] ?? "";
    let form: "liquid" | "powder" = amount.value.g !== undefined ? "powder" : "liquid";
    if (["powder", "dry", "powdered"].includes(word)) {
      form = "powder";
      at += 1;
    } else if (["liquid", "concentrate"].includes(word)) {
      form = "liquid";
      at += 1;
    }
    const { ml, g } = amount.value;
    if ((ml !== undefined && ml <= 0) || (g !== undefined && g <= 0)) {
      return err(`Part ${name} needs an amount above zero. Read me the parts again.`);
    }
    parts.push({
      name: name.length === 1 ? name.toUpperCase() : name,
      form,
      ...(ml !== undefined
        ? { amount: { ml: ml as never } }
        : g !== undefined
          ? { amount: { g: g as never } }
          : {}),
    });
  }
  if (parts.length === 0) return err("Name the parts in order, like A 100 ml, B 50 ml.");
  if (parts.length > 12) return err("Twelve parts at most. Read them again.");
  return ok(parts);
}

/** An amount behind a part's name, if there is one: a bare number is in the paper's measure. */
function amountAt(
  heard: Words,
  at: number,
  listening: Listening,
  measure: NonNullable<Answers["measure"]>,
): Result<{ ml?: number; g?: number; next: number }, NotRead> {
  const { words } = heard;
  const reading = readers.amount(words, at, listening)[0];
  if (reading !== undefined) {
    const { value, next } = reading;
    if (isUnreadable(value))
      return err(`"${value.unreadable}" is no amount I can use. Read me the parts again.`);
    if (isUnsettled(value)) {
      const dry = ["powder", "dry", "powdered"].includes(words[next] ?? "");
      const fluid = value.choices.find(({ word }) =>
        dry ? word.includes("weight") : word.includes("fluid"),
      );
      const bare = value.choices.some(({ word }) => word === "millilitres");
      if (bare) {
        const number = readers.number(words, at, listening)[0];
        if (typeof number?.value === "number") {
          if (dry && measure === "metric") return ok({ g: number.value, next: number.next });
          if (!dry) {
            const ml =
              measure === "metric" ? number.value : volumeIn(number.value, "fl oz", measure);
            return ok({ ml, next: number.next });
          }
        }
      }
      if (fluid === undefined)
        return err(`"${value.heard}": say it with its unit, like 100 ml or 12 g.`);
      return ok({ ...(fluid.value as { ml?: number; g?: number }), next });
    }
    return ok({ ...(value as { ml?: number; g?: number }), next });
  }
  return ok({ next: at });
}

function readTime(
  heard: Words,
  listening: Listening,
  question: Question,
  answers: Answers,
): Result<BathAnswers["time"], NotRead> {
  const words = heard.words.filter(
    (word) =>
      !["exactly", "exact", "precisely", "minimum", "least", "at", "or", "more"].includes(word),
  );
  const said = heard.words.join(" ");
  const kind = answers.baths?.find((bath) => bath.name === question.bath)?.kind ?? "";
  const sense = /\b(at least|minimum|or more)\b/.test(said)
    ? "at least"
    : /\b(exactly|exact|precisely)\b/.test(said) || isDeveloper(kind)
      ? "exact"
      : "at least";
  const reading = readers
    .duration(words, begin(words), listening)
    .find(({ next }) => next === words.length);
  const time = settled(reading?.value, heard, "a time, like 3:15 or 6 minutes");
  return time.ok ? ok({ time: time.value as never, sense }) : time;
}

function readTemperature(
  heard: Words,
  listening: Listening,
): Result<BathAnswers["temperature"], NotRead> {
  const { words } = heard;
  const split = words.findIndex(
    (word, at) =>
      word === "+/-" ||
      word === "±" ||
      (word === "plus" && ["or", "minus"].includes(words[at + 1] ?? "")),
  );
  const typed = split < 0 ? heard.typed.split(/±|\+\/?-/) : undefined;
  const mainText = typed?.[0] ?? asTyped(heard, 0, split);
  const bandText =
    typed === undefined
      ? asTyped(heard, split, words.length).replace(/^(plus|or|minus|\s|\+\/-|±)+/i, "")
      : typed[1];
  const temperature = readNumber(
    readers.temperature,
    toWords(mainText),
    listening,
    "a temperature, like 37.8 C",
  );
  if (!temperature.ok) return temperature;
  if (bandText === undefined || bandText.trim() === "")
    return ok({ temperature: temperature.value as never });
  const fahrenheit = /f\b|fahrenheit/i.test(mainText) && !/c\b|celsius/i.test(bandText);
  const bandWords = toWords(
    fahrenheit && !/f/i.test(bandText)
      ? `${bandText} f`
      : /[cf]|degree/i.test(bandText)
        ? bandText
        : `${bandText} c`,
  );
  const tolerance = readNumber(
    readers.difference,
    bandWords,
    listening,
    "a band, like plus or minus 0.2",
  );
  return tolerance.ok
    ? ok({ temperature: temperature.value as never, tolerance: tolerance.value as never })
    : tolerance;
}

function readAgitation(
  heard: Words,
  listening: Listening,
  question: Question,
  answers: Answers,
): Result<BathAnswers["agitation"], NotRead> {
  const said = heard.words.join(" ");
  const time = question.bath === undefined ? undefined : answers.bath?.[question.bath]?.time?.time;
  if (
    /\b(continuous|continuously|constant|constantly|rotary|all the time)\b/.test(said) &&
    time !== undefined
  ) {
    return ok({ initial: time });
  }
  const lengths: { readonly value: number; readonly from: number }[] = [];
  const every = heard.words.findIndex((word) => ["every", "each", "per"].includes(word));
  for (let at = 0; at < heard.words.length; ) {
    const reading = lengthAt(heard.words, at, listening);
    if (reading === undefined) at += 1;
    else {
      lengths.push({ value: reading.value, from: at });
      at = reading.next;
    }
  }
  const before = lengths.filter(({ from }) => every < 0 || from < every).map(({ value }) => value);
  const after = lengths.find(({ from }) => every >= 0 && from > every)?.value;
  const [first, second] = before;
  const tell = "Say it like: first 30 seconds, then 5 seconds every 30 seconds.";
  if (first === undefined) return err(tell);
  if (every < 0) return before.length === 1 ? ok({ initial: first as never }) : err(tell);
  if (after === undefined) return err(tell);
  return ok({ initial: first as never, every: after as never, each: (second ?? first) as never });
}

/** A duration, or "minute" alone, or a bare number which in a cadence can only be seconds. */
function lengthAt(
  words: readonly string[],
  at: number,
  listening: Listening,
): { value: number; next: number } | undefined {
  const word = words[at];
  if (word === "minute") return { value: 60, next: at + 1 };
  const bare = readers.number(words, at, listening)[0];
  const reading = readers.duration(words, at, listening)[0];
  if (reading !== undefined && typeof reading.value === "number") {
    return { value: reading.value, next: reading.next };
  }
  return bare !== undefined && typeof bare.value === "number"
    ? { value: bare.value, next: bare.next }
    : undefined;
}

const DAYS: Readonly<Record<string, number>> = {
  day: 1,
  week: 7,
  fortnight: 14,
  month: 30,
  year: 365,
};

/** Days. A month counts 30, the cautious way. */
function readKeeps(heard: Words, listening: Listening): Result<number, NotRead> {
  const { words } = heard;
  const from = begin(words);
  const number = readers.number(words, from, listening)[0];
  const unit = words.at(-1)?.replace(/s$/, "") ?? "";
  const days = DAYS[unit];
  if (
    number === undefined ||
    typeof number.value !== "number" ||
    days === undefined ||
    without(words, from, number.next).length > from + 1
  ) {
    return err("Say it like 6 weeks, 40 days or 2 months.");
  }
  return ok(number.value * days);
}
