import { err, ok, type Result } from "../domain/result.ts";
import type { BathAnswers } from "../domain/teaching/answers.ts";
import { millilitres, type Seconds, seconds } from "../domain/units/quantity.ts";
import type { Listening } from "../language/reader.ts";
import { readers } from "../language/readers/all.ts";
import { toWords, type Words } from "../language/words.ts";

/** Rules as they stand on the paper: re-use and push. What is not read comes back as a sentence. */
type Read<T> = Result<NonNullable<T>, string>;
type Row = { at: number; time: Seconds };

const REUSE =
  "Say it like 4 percent per roll, 5 seconds per roll, 15 seconds per tank, or table 1 3:15, 2 3:20, 3 3:30.";
const PUSH = "Say it like 30 seconds per stop, times 1.3 per stop, or table 1 3:45, 2 4:15.";

/** "4 percent per roll", "5 seconds per roll", "table ...", "20 ml of replenisher per roll". */
export function readReuse(heard: Words, listening: Listening): Read<BathAnswers["reuse"]> {
  const said = heard.words.join(" ");
  if (isTable(heard)) {
    const rows = readRows(heard.typed, listening);
    return rows.length === 0 ? err(REUSE) : ok({ kind: "table", rows });
  }
  const percent = /(-?\d+(?:\.\d+)?) ?(?:%|percent|per cent|pct)/.exec(said);
  if (percent !== null) {
    const compounded = /compound|on top of|each time of the last/.test(said);
    return ok({ kind: "percent", percent: Number(percent[1]), compounded });
  }
  const per =
    /\b(?:per|each|every|for each|for every|a)\b.*\b(roll|film|unit|tank|batch|run|session)s?\b/.exec(
      said,
    );
  if (/replenish/.test(said) && per !== null) {
    const volume = firstOf(heard, listening, "volume");
    return volume === undefined ? err(REUSE) : ok({ kind: "replenish", ml: millilitres(volume) });
  }
  const length = firstOf(heard, listening, "duration");
  if (length === undefined || per === null) return err(REUSE);
  const each = ["tank", "batch", "run", "session"].includes(per[1] ?? "") ? "batch" : "unit";
  return ok({ kind: "seconds", seconds: seconds(length), per: each });
}

/** Does a row mean what is done so far, or the one that is about to be done? */
export function readRowMeaning(said: string): Result<"done" | "this", string> {
  const done = /\b(done|so far|before|already|through|processed|used)\b/.test(said);
  const now = /\b(this|second|number|itself|next|about to)\b/.test(said);
  if (done !== now) return ok(done ? "done" : "this");
  return err(
    "Done so far, or this one? Say done so far when row 2 is for a bath that has done two.",
  );
}

/** "30 seconds per stop", "times 1.3 per stop", "table 1 3:45, 2 4:15". */
export function readPush(heard: Words, listening: Listening): Read<BathAnswers["push"]> {
  if (isTable(heard)) {
    const rows = readRows(heard.typed, listening).map(({ at, time }) => ({ at, time }));
    return rows.length === 0 ? err(PUSH) : ok({ kind: "table", rows });
  }
  const said = heard.words.join(" ");
  if (/\b(degrees?|rolls?|films?|tanks?|celsius|fahrenheit)\b/.test(said)) return err(PUSH);
  const times = /\b(?:times|x|factor(?: of)?|multiply by) ?(\d+(?:\.\d+)?)/.exec(said);
  if (times !== null) return ok({ kind: "factor", factor: Number(times[1]) });
  const percent =
    /(\d+(?:\.\d+)?) ?(?:%|percent|per cent) (?:more )?(?:per|each|every|for each|a)/.exec(said);
  if (percent !== null) return ok({ kind: "factor", factor: 1 + Number(percent[1]) / 100 });
  const length = firstOf(heard, listening, "duration");
  if (length === undefined || !/\b(per|each|every|a) (stop|push)/.test(said)) return err(PUSH);
  return ok({ kind: "seconds", seconds: seconds(length) });
}

const isTable = ({ words, typed }: Words): boolean =>
  words.includes("table") || (typed.match(/\d:\d\d/g) ?? []).length >= 2;

/** The rows of a table: "1 3:15, 2 3:20 and 3 3:30", "push 1 is 3:45". */
function readRows(typed: string, listening: Listening): Row[] {
  const { words } = toWords(typed.replace(/,/g, " "));
  const rows: Row[] = [];
  let at = 0;
  while (at < words.length) {
    const pull = ["pull", "minus"].includes(words[at] ?? "");
    const number = readers.number(words, pull ? at + 1 : at, listening).at(-1);
    if (number === undefined || typeof number.value !== "number") {
      at += 1;
      continue;
    }
    let next = number.next;
    while (between.has(words[next] ?? "")) next += 1;
    const time = readers.duration(words, next, listening)[0];
    if (time === undefined || typeof time.value !== "number") return [];
    rows.push({ at: pull ? -number.value : number.value, time: seconds(time.value) });
    at = time.next;
  }
  return rows;
}

const between: ReadonlySet<string> = new Set(
  "is are roll rolls stop stops film films = at for takes gets to".split(" "),
);

/** The first value of that kind anywhere in the sentence. */
function firstOf(
  heard: Words,
  listening: Listening,
  kind: "duration" | "volume",
): number | undefined {
  for (let at = 0; at < heard.words.length; at += 1) {
    const reading = readers[kind](heard.words, at, listening)[0];
    if (reading !== undefined && typeof reading.value === "number") return reading.value;
  }
  return undefined;
}
