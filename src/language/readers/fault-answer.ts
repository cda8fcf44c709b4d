import { UNKNOWN } from "../../domain/faults/diagnosis.ts";
import type { FaultQuestion } from "../../domain/faults/tables.ts";
import { toWords } from "../words.ts";

const UNSURE =
  /^(i )?(do not|can not|could not|did not) (know|tell|say|see|remember|look|check)( (it|that))?$|^(no idea|not sure|unsure|unknown|skip( it| that| this)?|pass|dunno|hard to say|who knows|no clue|i am not sure)$/;
const ENOUGH =
  /^(enough|that is enough|that is all|stop asking|just tell me|tell me|what is it|verdict|no more questions|finish)$/;

/** Words an answer may begin with that say nothing yet. */
const OPENING =
  /^(they|it|the|numbers|edge|i|is|are|was|were|look|looks|looked|think|guess|would|say|seem|seems|to|be|a|bit|rather|quite|very|well|oh|that|there|contrast|only|just|on|yes|mostly|my) (?=.)/;

/** Says that nobody knows; words as they are normalised. */
export const isUnsure = (said: string): boolean => UNSURE.test(said);

/**
 * An answer to a question of the diagnosis: an option's word or one of its ways, or its number.
 *
 * @returns the word of the option, "unknown", "enough" to end the questions, or undefined when it
 *   is no answer
 */
export function readFaultAnswer(question: FaultQuestion, text: string): string | undefined {
  const said = toWords(text).words.join(" ");
  if (isUnsure(said)) return UNKNOWN;
  if (ENOUGH.test(said)) return "enough";
  for (let rest = said; ; ) {
    const option = optionCalled(question, rest);
    if (option !== undefined) return option;
    const shorter = rest.replace(OPENING, "");
    if (shorter === rest) break;
    rest = shorter;
  }
  const number = Number(said);
  return Number.isInteger(number) ? question.options[number - 1]?.word : undefined;
}

const optionCalled = (question: FaultQuestion, said: string): string | undefined =>
  question.options.find(({ word, ways }) =>
    [word, ...ways].some((way) => toWords(way).words.join(" ") === said),
  )?.word;
