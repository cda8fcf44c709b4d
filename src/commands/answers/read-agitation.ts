import { err, ok, type Result } from "../../domain/result.ts";
import type { BathAnswers } from "../../domain/teaching/answers.ts";
import { type Seconds, seconds } from "../../domain/units/quantity.ts";
import type { Listening } from "../../language/reader.ts";
import { readers } from "../../language/readers/all.ts";
import { toWords } from "../../language/words.ts";

const LIKE = "Say it in seconds, like: first 30 seconds, then 5 seconds every 30 seconds.";

/** Figures that measure something else. */
const OTHER =
  /\d ?(ml|l|oz|ounces?|g|grams?|c|f|°[cf]?|degrees?|rolls?|films?|percent|%|hours?|days?|weeks?|months?)(?!\w)/;
/** A figure is a length of time where its unit or its place in the cadence is said. */
const LENGTH = /\d ?(s|m)\b|\b(sec|secs|seconds?|min|mins|minutes?|first|initial|initially)\b/;

/** "first 30 seconds, then 5 seconds every 30", "5 seconds every minute", "continuous". */
export function readAgitation(
  typed: string,
  listening: Listening,
  time: Seconds | undefined,
): Result<BathAnswers["agitation"], string> {
  const { words } = toWords(typed);
  const said = words.join(" ");
  if (/\b(inversions?|turns?|times|lifts?)\b/.test(said)) {
    return err(`I count agitation in seconds, not in turns. ${LIKE}`);
  }
  if (OTHER.test(said)) return err(LIKE);
  const every = words.findIndex((word) => ["every", "each", "per"].includes(word));
  const before: number[] = [];
  let after: number | undefined;
  for (let at = 0; at < words.length; ) {
    const length = lengthAt(words, at, listening);
    if (length === undefined) at += 1;
    else {
      if (every < 0 || at < every) before.push(length.value);
      else after ??= length.value;
      at = length.next;
    }
  }
  const [first, second] = before;
  if (first === undefined) {
    const always = /\b(continuous|continuously|constant|constantly|rotary|all the time)\b/.test(
      said,
    );
    return always && time !== undefined ? ok({ initial: time }) : err(LIKE);
  }
  if (every < 0 && !LENGTH.test(said)) return err(LIKE);
  if (every < 0) return before.length === 1 ? ok({ initial: seconds(first) }) : err(LIKE);
  if (after === undefined) return err(LIKE);
  return ok({ initial: seconds(first), every: seconds(after), each: seconds(second ?? first) });
}

/** A duration, or "minute" alone, or a bare number, which in a cadence can only be seconds. */
function lengthAt(
  words: readonly string[],
  at: number,
  listening: Listening,
): { readonly value: number; readonly next: number } | undefined {
  if (words[at] === "minute") return { value: 60, next: at + 1 };
  const whole = readers.duration(words, at, listening)[0];
  if (typeof whole?.value === "number") return { value: whole.value, next: whole.next };
  const bare = readers.number(words, at, listening)[0];
  return typeof bare?.value === "number" ? { value: bare.value, next: bare.next } : undefined;
}
