import { ownValue } from "../domain/own-value.ts";
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
import { toWords, type Words } from "../language/words.ts";
import { readAgitation } from "./answers/read-agitation.ts";
import { readBand } from "./answers/read-band.ts";
import { readBaths } from "./answers/read-baths.ts";
import { readParts } from "./answers/read-parts.ts";
import { readTimes } from "./answers/read-times.ts";
import { readPush, readReuse, readRowMeaning } from "./read-rule.ts";

/** What was heard cannot be that: one sentence that says what to give. */
type NotRead = string;

const LEFT_OUT =
  /^(skip( it| that| this)?|none|nothing|not on (it|the sheet|the paper|there)|(it )?does not say|no|nope|n\/a|leave (it )?out|unknown|i do not know|it does not)$/;
const ROOM = /^(at |in )?(the )?(room|ambient)( temperature)?$/;
const QUESTION = /^(what|how|which|why|who|where|when|can|could|do|does|should) /;
/** Said at the sink, and to a yes or no: nobody calls a sheet so. */
const NO_NAME = /^(yes|yeah|yep|ok|okay|no|nope|next|done|left|ready|in|out|right|now|stop|start)$/;

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
  const room = ["warmth", "temperature"].includes(question.wants) && ROOM.test(said);
  if (LEFT_OUT.test(said) || room) {
    if (question.wants === "yes" && /^no(pe)?$/.test(said)) return ok(false);
    return question.optional ? ok(null) : err(`That one I need. ${question.title}`);
  }
  const measure = answers.measure ?? "metric";
  const country: Country | undefined = measure === "metric" ? undefined : measure;
  const ears: Listening = { ...listening, country };
  switch (question.wants) {
    case "name":
      return heard.typed.length > 40 ||
        heard.words.length > 5 ||
        NO_NAME.test(said) ||
        QUESTION.test(said) ||
        !/\p{L}{2}/u.test(heard.typed) ||
        /\?$/.test(heard.typed)
        ? err("A name of one to five words, please, not a figure alone.")
        : ok(heard.typed);
    case "process":
      return readProcess(said);
    case "measure":
      return readMeasure(said);
    case "baths":
      return readBaths(heard.typed, ears);
    case "volume":
      return readVolume(heard, ears, measure);
    case "warmth":
      return readNumber(readers.temperature, heard, ears, "a temperature, like 43 C");
    case "parts":
      return readParts(heard.typed, ears, measure);
    case "time":
      return readTime(heard, ears, question, answers);
    case "temperature":
      return readBand(heard.typed, ears);
    case "agitation":
      return readAgitation(
        heard.typed,
        ears,
        question.bath === undefined ? undefined : answers.bath?.[question.bath]?.time?.time,
      );
    case "count":
      return readCount(heard, ears);
    case "keeps":
      return keepsAnswer(question, heard, ears);
    case "reuse":
      return readReuse(heard, ears);
    case "rows":
      return readRowMeaning(said);
    case "push":
      return readPush(heard, ears);
    case "times":
      return readTimes(heard.typed, ears);
    case "yes":
      return readWhether(heard, ears);
  }
}

function readWhether(heard: Words, listening: Listening): Result<boolean, NotRead> {
  const value = readers
    .yes(heard.words, begin(heard.words), listening)
    .find(({ next }) => next === heard.words.length)?.value;
  return typeof value === "boolean" ? ok(value) : err("Yes or no: does the paper allow it?");
}

/** The first words that mean no more than "it is". */
const opening = new Set(["it", "is", "about", "the", "at", "for", "to", "says", "with", "in"]);

const begin = (words: readonly string[]): number =>
  Math.max(
    0,
    words.findIndex((word) => !opening.has(word)),
  );

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

const ROLLS = "a number of rolls, like 8";

/** Rolls are counted: whole, or by halves while they are few. "38.5" is a temperature. */
function readCount(heard: Words, listening: Listening): Result<number, NotRead> {
  // A roll of 135 with 36 exposures and one of 120 count the same.
  const plain = heard.typed.replace(/\bof (135(-36)?|120|35 ?mm)( films?)?$/i, "");
  const words = withoutLast(toWords(plain), ["rolls", "roll", "units", "unit", "films", "film"]);
  const count = readNumber(readers.number, words, listening, ROLLS);
  if (!count.ok) return count;
  const whole = Number.isInteger(count.value);
  const halves = count.value < 10 && Number.isInteger(count.value * 2);
  return whole || halves ? count : err(`Nobody counts ${heard.typed} rolls. Give me ${ROLLS}.`);
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
  if (/(?<!\b(let|tell|give|ask) )\bus\b|american|u\.s/.test(said)) return ok("us");
  if (/metric|ml|millilit|litre|liter|grams/.test(said)) return ok("metric");
  return err(
    "Millilitres, US ounces or Imperial ounces? If the paper has several, take millilitres.",
  );
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
    if (measure === "metric" && bare.value > 0 && bare.value < 10) {
      return err(`${heard.typed} of what? Say it with its unit, like 650 ml or 1 litre.`);
    }
    return ok(measure === "metric" ? bare.value : volumeIn(bare.value, "fl oz", measure));
  }
  return readNumber(readers.volume, heard, listening, "a volume with its unit, like 650 ml");
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

const DAYS: Readonly<Record<string, number>> = {
  hour: 1 / 24,
  day: 1,
  week: 7,
  fortnight: 14,
  month: 30,
  year: 365,
};

/** Days. A month counts 30, the cautious way; "a month" is one. */
function readKeeps(heard: Words, listening: Listening): Result<number, NotRead> {
  const { words } = heard;
  const from = begin(words);
  const number = readers
    .number(words, from, listening)
    .find(({ next }) => next === words.length - 1);
  const one = ["a", "an"].includes(words[from] ?? "") && from === words.length - 2 ? 1 : undefined;
  const value = typeof number?.value === "number" ? number.value : one;
  const days = ownValue(DAYS, words.at(-1)?.replace(/s$/, "") ?? "");
  return value === undefined || days === undefined
    ? err("Say it like 6 weeks, 40 days, or 6 weeks full and 4 weeks part full.")
    : ok(value * days);
}

function keepsAnswer(
  question: Question,
  heard: Words,
  listening: Listening,
): Result<unknown, NotRead> {
  const both = question.word === "keeps" ? readBothKeeps(heard, listening) : undefined;
  return both === undefined ? readKeeps(heard, listening) : ok(both);
}

/** "6 weeks full, 4 weeks part full": where the paper has both, both are kept. */
function readBothKeeps(
  heard: Words,
  listening: Listening,
): { keeps: number; keepsPart: number } | undefined {
  const said = heard.words.join(" ");
  const both =
    /^(.+?) (?:in a |when )?full(?: bottle)?(?: and| or|,)? (.+?) (?:in a |when )?(?:part|partly|half)[- ]?(?:full|filled)(?: bottle)?$/.exec(
      said,
    );
  if (both === null) return undefined;
  const full = readKeeps(toWords(both[1] ?? ""), listening);
  const part = readKeeps(toWords(both[2] ?? ""), listening);
  return full.ok && part.ok ? { keeps: full.value, keepsPart: part.value } : undefined;
}
