import type { Bench } from "../../../domain/session/bench.ts";
import {
  answerTo,
  nextQuestion,
  type Question,
  questionsOf,
} from "../../../domain/teaching/questions.ts";
import { showAnswer } from "../../../domain/teaching/show-answers.ts";
import { type Reply, refuse } from "../../../reply/reply.ts";
import type { FormAnswer } from "./read-teach-form.ts";
import type { Typed } from "./teach-form.ts";

type Call = { readonly command: string; readonly fields: Readonly<Record<string, unknown>> };

export type FormTaken = {
  readonly reply: Reply;
  /** What was not taken, for the same page again. */
  readonly typed: Typed;
};

/**
 * Gives the answers of a page to the conversation one by one, each as the correction of its line,
 * so that they pass the same readers and checks as what is said. What is wrong is said with what
 * was read; what is right is kept.
 *
 * @param hear   says one command to the bench
 * @param bench  the bench as it stands after the last of them
 */
export async function takeTeachForm(
  answers: readonly FormAnswer[],
  hear: (call: Call) => Promise<Reply>,
  bench: () => Bench,
): Promise<FormTaken> {
  if (bench().draft === undefined) await hear({ command: "learn", fields: {} });
  const wrong: { readonly line: string; readonly answer: FormAnswer }[] = [];
  const right: FormAnswer[] = [];
  let last: Reply | undefined;
  for (const answer of answers) {
    const reply = await hear(lineCall(bench(), answer));
    // First aid was called for: nothing else matters now.
    if (typeof reply.facts.grade === "string") return { reply, typed: {} };
    if (reply.kind === "refusal") {
      wrong.push({ line: `${labelOf(bench(), answer)}: ${withTyped(reply, answer)}`, answer });
    } else {
      last = reply;
      right.push(answer);
    }
  }
  const typed = Object.fromEntries(wrong.map(({ answer }) => [answer.id, answer.text]));
  const heard = right.flatMap((answer) => heardLine(bench(), answer));
  if (wrong.length > 0 || last === undefined) {
    return { reply: notTaken(wrong, heard), typed };
  }
  const complete = nextQuestion(bench().draft?.answers ?? {}) === undefined;
  return { reply: complete ? last : { ...last, lines: [...heard, ...last.lines] }, typed };
}

const questionOf = (bench: Bench, id: string): Question | undefined =>
  questionsOf(bench.draft?.answers ?? {}).find((one) => one.id === id);

function lineCall(bench: Bench, { id, text }: FormAnswer): Call {
  const questions = questionsOf(bench.draft?.answers ?? {});
  const line = questions.findIndex((question) => question.id === id) + 1;
  return { command: "change", fields: { line, value: text } };
}

function labelOf(bench: Bench, { id }: FormAnswer): string {
  const question = questionOf(bench, id);
  if (question === undefined) return id;
  return question.bath === undefined ? question.word : `${question.bath} ${question.word}`;
}

/** What an answer was taken for, to be compared with the paper. */
function heardLine(bench: Bench, answer: FormAnswer): readonly string[] {
  const question = questionOf(bench, answer.id);
  const answers = bench.draft?.answers;
  if (question === undefined || answers === undefined) return [];
  const country = answers.measure === "metric" ? undefined : answers.measure;
  const shown = showAnswer(question, answerTo(answers, question), country);
  return [`${labelOf(bench, answer)}: ${shown}`];
}

const withTyped = (reply: Reply, { text }: FormAnswer): string =>
  text === "" || reply.title.includes(text) ? reply.title : `"${text}". ${reply.title}`;

function notTaken(wrong: readonly { readonly line: string }[], heard: readonly string[]): Reply {
  const many = wrong.length === 1 ? "One answer" : `${wrong.length} answers`;
  const rest = heard.length === 0 ? "" : "; the others are kept";
  return refuse("not-read", `${many} I could not take${rest}.`, {
    lines: [...wrong.map(({ line }) => line), ...heard, "Press form to mend it."],
    ask: { command: "learn", fields: {}, slot: "answer", eager: true },
  });
}
