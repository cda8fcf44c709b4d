import { z } from "zod";
import { confirm, defineCommand, toJson } from "../src/commands/define-command.ts";
import { leftOutWords } from "../src/commands/left-out-words.ts";
import { sessionOf } from "../src/commands/session-of.ts";
import { sessionLines } from "../src/commands/session-text.ts";
import { type LeftOut, shareWith } from "../src/domain/record/for-sharing.ts";
import { repeatableOf } from "../src/domain/record/repeatable.ts";
import type { SharedSession } from "../src/domain/record/session-schema.ts";
import { latestRun, runOfTank } from "../src/domain/session/find-run.ts";
import type { Run } from "../src/domain/session/run.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

export const shareCommand = defineCommand({
  name: "share",
  summary: "Show what the film group would see of a run, and on your yes give it out.",
  topic: "run",
  sentences: [
    "(share|share (it|that|the run|the session)) [[with] [the] group] [(of|from) [tank] {tank}]",
    "(share|give) [me] [it|that|the run|the session] {form} [(of|from) [tank] {tank}]",
    "{form} [(of|from) [tank] {tank}]",
  ],
  slots: { form: "shareForm", sure: "yes" },
  examples: ["share", "share repeatable"],
  fields: z.object({
    tank: z.string().optional(),
    form: z.literal("repeatable").optional(),
    sure: z.boolean().optional(),
  }),
  changes: false,
  values: {
    run: "id of the run",
    tank: "its name; missing once it is shared",
    form: "text or repeatable",
    shared: "the session as data/schemas/shared-session-1.schema.json describes it",
    repeatable:
      "the block another bench can take, as data/schemas/repeatable-1.schema.json describes it",
    left_out: "notes, people, places, rolls, names: how many of each stay here",
  },
  run({ bench }, { tank, form, sure }) {
    const run = tank === undefined ? latestRun(bench) : runOfTank(bench, tank);
    if (run === undefined) {
      return refuse("no-run", "There is no run to share yet.", {
        say: "There is no run to share yet.",
      });
    }
    if (sure === false) {
      return answer({ title: "Nothing was shared.", say: "Nothing was shared." });
    }
    const { shared, leftOut } = shareWith(sessionOf(bench, run));
    const fields = { tank: run.tank, ...(form === undefined ? {} : { form }) };
    return form === undefined
      ? asText(run, shared, leftOut, fields, sure === true)
      : asBlock(run, shared, fields, sure === true);
  },
});

type Fields = { readonly tank: string; readonly form?: "repeatable" };

function asText(
  run: Run,
  shared: SharedSession,
  leftOut: LeftOut,
  fields: Fields,
  sure: boolean,
): Reply {
  const title = `${shared.tank}: ${shared.title}`;
  const facts = { run: run.id, form: "text", left_out: { ...leftOut } };
  const lines = [
    ...(shared.sheet.invented ? ["INVENTED figures, for trying out only."] : []),
    ...sessionLines(shared),
  ];
  if (!sure) {
    return confirm("share", fields, "sure", `Share this with the group? ${title}`, {
      lines: [...lines, `Left out: ${leftOutWords(leftOut)}.`],
      say: "Share it with the group? Look at it first.",
      facts,
      share: { run: run.id, title, lines },
    });
  }
  return answer({
    title,
    lines,
    say: "Shared. Private things stayed here.",
    facts: { ...facts, shared: toJson({ shared }).shared ?? null },
  });
}

const COPY = "Copy this line whole; another bench takes it as it is.";

/** One line that can be copied whole. */
function asBlock(run: Run, shared: SharedSession, fields: Fields, sure: boolean): Reply {
  const made = repeatableOf(shared, run);
  if (!made.ok) return refuse("not-repeatable", made.error);
  const block = JSON.stringify(made.value);
  const facts = { run: run.id, form: "repeatable" };
  if (!sure) {
    return confirm("share", fields, "sure", "Share this run so that another bench can repeat it?", {
      lines: [
        block,
        "It holds figures and the names of baths: no people, notes, places, dates or bottles.",
      ],
      say: "Share it as a plan to repeat?",
      facts,
      share: { run: run.id, title: COPY, lines: [block] },
    });
  }
  return answer({
    title: COPY,
    lines: [block],
    say: "There it is. Copy the line whole.",
    facts: { ...facts, repeatable: toJson({ block: made.value }).block ?? null },
  });
}
