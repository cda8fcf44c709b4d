import {
  anyTankWet,
  developerOf,
  type OpenQuestion,
  openQuestion,
  unasked,
} from "../domain/record/open-questions.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Ask, Option, Reply } from "../reply/reply.ts";
import { oneBreath } from "../reply/reply.ts";

export type AfterQuestion = { readonly title: string; readonly say: string; readonly ask: Ask };

const SKIP: Option = { word: "skip", value: { skip: true } };

/** The next question about a run that is over, as it is put. `others` are asked about along with it. */
export function afterQuestion(
  run: Run,
  others: readonly Run[] = [],
  open: OpenQuestion | undefined = openQuestion(run),
): AfterQuestion | undefined {
  if (open === undefined) return undefined;
  const fields = { run: run.id };
  if (open.kind === "temperatures") {
    const index = developerOf(run) ?? 0;
    const bath = run.stages[index]?.bath ?? "developer";
    const [only] = open.ends;
    const title =
      open.ends.length === 2
        ? `How warm was the ${bath} at the start and at the end? Like 38.1 and 37.8.`
        : `How warm was the ${bath} at the ${only ?? "end"}?`;
    return {
      title,
      say: oneBreath(title),
      ask: { command: "wrap up", fields, slot: "ends", options: [SKIP], optional: true },
    };
  }
  const tanks = [...new Set([run, ...others].map(({ tank }) => tank))];
  const where = tanks.length < 2 ? "" : ` with ${tanks.slice(0, -1).join(", ")} or ${tanks.at(-1)}`;
  const title =
    run.ending === "stopped"
      ? "What made you stop? A few words, or no."
      : `Anything different today${where}? A few words, or no.`;
  return {
    title,
    say: run.ending === "stopped" ? "What made you stop?" : "Anything different today?",
    ask: {
      command: "wrap up",
      fields,
      slot: "different",
      options: [{ word: "no", value: "no" }],
      optional: true,
    },
  };
}

/** "Two short questions" or "a short question", whichever are open; nothing where none is. */
export function openWords(run: Run): string | undefined {
  const open = openQuestion(run);
  if (open === undefined) return undefined;
  return open.kind === "temperatures" ? "two short questions" : "a short question";
}

/**
 * A reply about a run that has just ended, with the next open question behind it. Nothing is asked
 * while film is in another tank, nor where the reply asks something itself.
 */
export function thenAsk(bench: Bench, run: Run, now: Instant, reply: Reply): Reply {
  const open = openWords(run);
  if (reply.ask !== undefined || open === undefined) return reply;
  if (anyTankWet(bench, now)) {
    const later = `Once no tank is wet, say wrap up for ${open}.`;
    return { ...reply, lines: [...reply.lines, later] };
  }
  const asked = afterQuestion(run, unasked(bench, run));
  if (asked === undefined) return reply;
  return {
    ...reply,
    kind: "question",
    title: `${reply.title} ${asked.title}`,
    say:
      oneBreath(`${reply.say} ${asked.say}`) === `${reply.say} ${asked.say}`
        ? `${reply.say} ${asked.say}`
        : asked.say,
    ask: asked.ask,
  };
}
