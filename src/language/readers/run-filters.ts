import type { Clause, Fault } from "../../domain/log/wanted.ts";
import type { Listening, Reading } from "../reader.ts";
import { readBath } from "./bath.ts";
import { readFilm } from "./film.ts";
import { readPeriod } from "./period.ts";
import { phrases } from "./phrases.ts";
import { readMark } from "./process-mark.ts";
import { readStops } from "./stops.ts";
import { isUnreadable } from "./unreadable.ts";

type Read = readonly Reading<Clause>[];

const fillers: ReadonlySet<string> = new Set(
  "and that were was i we which where who it have has had did do the a an my our been is are ran run done developed develop processed process ever runs sessions".split(
    " ",
  ),
);

const readFault = phrases<Fault>([
  ["short", "short, shorter, too short, cut short, early, under time"],
  ["long", "long, longer, too long, over time, over, late"],
  ["skipped", "skipped, skip, left out, leave out, missed, miss"],
  ["warm", "warm, hot, too warm, too hot, warmer, hotter, above its band, above the band"],
  ["cold", "cold, cool, too cold, too cool, colder, cooler, below its band, below the band"],
  ["assumed", "assumed, not heard, unheard, not confirmed, unconfirmed"],
]);
const readAny = phrases<Fault>([
  [
    "any",
    "deviate, deviated, deviation, deviations, went wrong, go wrong, off plan, something odd, something was odd, something differed",
  ],
]);
const readWhole = phrases<Clause>([
  [{ kind: "clean" }, "clean, no deviation, no deviations, without deviation, without deviations"],
  [{ kind: "clean" }, "without a deviation, without any deviation, as planned, nothing wrong"],
  [{ kind: "stopped" }, "stopped, given up, gave up, stop, give up"],
  [{ kind: "rehearsals" }, "rehearsal, rehearsals, rehearsed, with water"],
  [
    { kind: "push", stops: 0 },
    "without push, without a push, without pushing, not pushed, unpushed",
  ],
]);
const readAnyPush = phrases<"push" | "pull">([
  ["push", "push, pushed, pushing, with a push, with push"],
  ["pull", "pull, pulled, pulling, with a pull"],
]);
const verbs: ReadonlySet<string> = new Set(
  "ran run runs was were is be been got get came come went go out a bit little with".split(" "),
);

/** "The wash ran short", "a short wash", "developer too warm", "something went wrong". */
function readFaultClause(words: readonly string[], from: number): Read {
  const found: Reading<Clause>[] = [];
  const clause = (fault: Fault, bath: string | undefined, next: number): void => {
    const value: Clause = { kind: "fault", fault, ...(bath === undefined ? {} : { bath }) };
    found.push({ value, next });
  };
  for (const bath of readBath(words, from)) {
    let at = bath.next;
    while (verbs.has(words[at] ?? "")) at += 1;
    for (const { value, next } of readFault(words, at)) clause(value, bath.value, next);
  }
  let at = from;
  while (at < words.length && verbs.has(words[at] ?? "")) at += 1;
  for (const fault of readFault(words, at)) {
    for (const bath of readBath(words, fault.next)) clause(fault.value, bath.value, bath.next);
    const bare = words[fault.next] === "bath" ? fault.next + 1 : fault.next;
    clause(fault.value, undefined, bare);
  }
  for (const any of [...readAny(words, from), ...readAny(words, at)]) {
    const inBath = ["in", "with", "of"].includes(words[any.next] ?? "")
      ? readBath(words, any.next + 1)
      : [];
    for (const bath of inBath) clause(any.value, bath.value, bath.next);
    clause(any.value, undefined, any.next);
  }
  return found;
}

function readPush(words: readonly string[], from: number): Read {
  const counted = readStops(words, from).flatMap(
    ({ value, next }): Read =>
      isUnreadable(value) ? [] : [{ value: { kind: "push", stops: value }, next }],
  );
  const any = readAnyPush(words, from).map(
    ({ value, next }): Reading<Clause> => ({ value: { kind: "push", stops: value }, next }),
  );
  return [...counted, ...any];
}

function readFilmClause(words: readonly string[], from: number): Read {
  const start = ["with", "of", "on"].includes(words[from] ?? "") ? from + 1 : from;
  return readFilm(words, start).flatMap(({ value, next }): Read => {
    if (isUnreadable(value)) return [];
    const [only] = value;
    if (value.length !== 1 || only?.format === undefined) return [];
    const count = only.count > 1 ? { count: only.count } : {};
    return [{ value: { kind: "film", format: only.format, ...count }, next }];
  });
}

function readProcess(words: readonly string[], from: number): Read {
  const start = ["in", "by", "of", "with"].includes(words[from] ?? "") ? from + 1 : from;
  return readMark(words, start).map(({ value, next }) => ({
    value: { kind: "process", mark: value },
    next,
  }));
}

const before: ReadonlySet<string> = new Set(
  "with by in on from using used use through for of together".split(" "),
);
/** A name has three words at most, and never one of these. */
const MOST = 3;
const never: ReadonlySet<string> = new Set(
  "and or but not i we in on since before after".split(" "),
);

/** "With Dora", "by Ana Maria", "in tank North", "on the red thermometer": the shortest first. */
function readNamed(words: readonly string[], from: number): Read {
  const noun = words[from] === "tank" || words[from] === "bottle";
  if (!noun && !before.has(words[from] ?? "")) return [];
  let start = noun ? from : from + 1;
  while (before.has(words[start] ?? "")) start += 1;
  if (["the", "my", "our"].includes(words[start] ?? "")) start += 1;
  const found: Reading<Clause>[] = [];
  for (let next = start + 1; next <= Math.min(words.length, start + MOST); next += 1) {
    const name = words.slice(start, next);
    if (never.has(name.at(-1) ?? "")) break;
    found.push({ value: { kind: "name", text: name.join(" ") }, next });
  }
  return found;
}

const clausesAt = (words: readonly string[], from: number, listening: Listening): Read => [
  ...readWhole(words, from),
  ...readPeriod(words, from, listening).map(
    ({ value, next }): Reading<Clause> => ({ value: { kind: "dates", ...value }, next }),
  ),
  ...readFaultClause(words, from),
  ...readPush(words, from),
  ...readProcess(words, from),
  ...readFilmClause(words, from),
  ...readNamed(words, from),
];

/** Nobody asks for more at once. */
const MOST_CLAUSES = 8;
/** Gives up on sentences built to be slow: nobody's question is longer, in words or in ways to read it. */
const LONGEST = 40;
const MOST_STEPS = 2000;

/**
 * The slot `{filters}`: what the wanted runs have in common, up to the end of the sentence: "pushed
 * two stops with Dora in October".
 */
export function readFilters(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<readonly Clause[]>[] {
  if (words.length - from > LONGEST) return [];
  let steps = 0;
  const rest = (at: number, depth: number): readonly Clause[] | undefined => {
    steps += 1;
    if (at >= words.length) return [];
    if (depth >= MOST_CLAUSES || steps > MOST_STEPS) return undefined;
    for (const { value, next } of clausesAt(words, at, listening)) {
      if (next <= at) continue;
      const more = rest(next, depth + 1);
      if (more !== undefined) return [value, ...more];
    }
    return fillers.has(words[at] ?? "") ? rest(at + 1, depth) : undefined;
  };
  const value = rest(from, 0);
  return value === undefined || value.length === 0 ? [] : [{ value, next: words.length }];
}
