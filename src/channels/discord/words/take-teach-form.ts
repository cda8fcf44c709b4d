import type { Bench } from "../../../domain/session/bench.ts";
import { questionsOf } from "../../../domain/teaching/questions.ts";
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
  let last: Reply | undefined;
  for (const answer of answers) {
    const reply = await hear(lineCall(bench(), answer));
    // First aid was called for: nothing else matters now.
    if (typeof reply.facts.grade === "string") return { reply, typed: {} };
    if (reply.kind !== "refusal") last = reply;
    else wrong.push({ line: `${labelOf(bench(), answer)}: ${readBack(reply, answer)}`, answer });
  }
  const typed = Object.fromEntries(wrong.map(({ answer }) => [answer.id, answer.text]));
  if (wrong.length === 0 && last !== undefined) return { reply: last, typed };
  return { reply: notTaken(wrong, answers.length), typed };
}

function lineCall(bench: Bench, { id, text }: FormAnswer): Call {
  const questions = questionsOf(bench.draft?.answers ?? {});
  const line = questions.findIndex((question) => question.id === id) + 1;
  return { command: "change", fields: { line, value: text } };
}

function labelOf(bench: Bench, { id }: FormAnswer): string {
  const question = questionsOf(bench.draft?.answers ?? {}).find((one) => one.id === id);
  if (question === undefined) return id;
  return question.bath === undefined ? question.word : `${question.bath} ${question.word}`;
}

const readBack = (reply: Reply, { text }: FormAnswer): string =>
  text === "" || reply.title.includes(text) ? reply.title : `"${text}". ${reply.title}`;

function notTaken(wrong: readonly { readonly line: string }[], of: number): Reply {
  const title =
    wrong.length === 1
      ? "One answer I could not take; the others are kept."
      : `${wrong.length} of ${of} answers I could not take; the others are kept.`;
  return refuse("not-read", of === wrong.length ? "I could take none of that." : title, {
    lines: [...wrong.map(({ line }) => line), "Press form to mend them."],
    ask: { command: "learn", fields: {}, slot: "answer", eager: true },
  });
}
