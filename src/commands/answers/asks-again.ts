import { toWords } from "../../language/words.ts";

/** Alone it means that the question was not caught; "wait" and "ok" may be said to a run. */
const NOISE = /^(sorry|u+h+m+)$/;
/** What is said before anything is said. */
const OPENING = /^(a+h+|oh|please|wait|ok|so|well|hang|on|and)$/;

const AGAIN = [
  /^(what|huh|eh|which|pardon|pardon me|excuse me|come again|what now|again|repeat|once more)$/,
  /\b(what|which) (was|is|were) (it|that|the|your|this)( (last|next|open))?( question)?( again)?$/,
  /\bwhat (did|do) you (just )?(ask|say|want|need|mean)\b/,
  /^(can you |could you |would you )?(say|ask|repeat|read) (me )?(it|that|this|the question)( again| once more)?$/,
  /^i (did not|do not|could not|cannot|can not) (hear|catch|get|understand) (it|that|you|the question)$/,
  /\b(question|asked?) again$/,
];

/** "Uhh, what was the question": no answer, and the question is to come again. */
export function asksAgain(typed: string): boolean {
  const { words } = toWords(typed);
  const quiet = words.filter((word) => !NOISE.test(word));
  const said = quiet.filter((word) => !OPENING.test(word)).join(" ");
  // Of "uh" and "hm" no word is left.
  const noise = quiet.length < Math.max(1, words.length) && said === "";
  return noise || AGAIN.some((form) => form.test(said));
}
