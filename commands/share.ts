import { z } from "zod";
import { confirm, defineCommand, toJson } from "../src/commands/define-command.ts";
import { leftOutWords } from "../src/commands/left-out-words.ts";
import { pastOfNamed, runNamed } from "../src/commands/run-named.ts";
import { pictureValues } from "../src/commands/session-forms.ts";
import { sessionOf } from "../src/commands/session-of.ts";
import { sessionLines } from "../src/commands/session-text.ts";
import { shareWith } from "../src/domain/record/for-sharing.ts";
import { repeatableOf } from "../src/domain/record/repeatable.ts";
import type { SharedSession } from "../src/domain/record/session-schema.ts";
import type { Run } from "../src/domain/session/run.ts";
import { answer, type Reply, type ReplyPicture, refuse } from "../src/reply/reply.ts";

export const shareCommand = defineCommand({
  name: "share",
  summary: "Show what the film group would see of a run, and on your yes give it out.",
  topic: "run",
  sentences: [
    "(share|share (it|that|the run|the session)) [[with] [the] group] [(of|from) [tank] {tank}]",
    "share [tank] {tank} [with [the] group]",
    "share run [number] {number} [with [the] group]",
    "(share|give) [me] [it|that|the run|the session] {form} [(of|from) [tank] {tank}] [with [the] group]",
    "share {form} of run [number] {number} [with [the] group]",
    "share run [number] {number} {form} [with [the] group]",
    "share [tank] {tank} {form} [with [the] group]",
    "{plan} [(of|from) [tank] {tank}]",
  ],
  slots: { form: "shareForm", plan: "repeatable", sure: "yes" },
  examples: ["share", "share picture", "share repeatable"],
  fields: z.object({
    tank: z.string().optional(),
    number: z.number().optional(),
    /** Which run was shown: that one is given out, whatever began meanwhile. */
    run: z.string().optional(),
    form: z.enum(["repeatable", "picture"]).optional(),
    plan: z.literal("repeatable").optional(),
    sure: z.boolean().optional(),
  }),
  changes: false,
  reads: pastOfNamed,
  values: {
    run: "id of the run",
    tank: "its name; missing once it is shared",
    form: "text, picture or repeatable",
    shared: "the session as data/schemas/shared-session-1.schema.json describes it",
    repeatable:
      "the block another bench can take, as data/schemas/repeatable-1.schema.json describes it",
    left_out: "notes, people, places, rolls, names: how many of each stay here",
    ...pictureValues,
  },
  run({ bench, past }, { tank, number, run: id, plan, form = plan, sure }) {
    const run = runNamed(bench, past, { tank, number, run: id });
    if (run === undefined) {
      return refuse("no-run", "There is no such run to share.", {
        say: "There is no such run to share.",
      });
    }
    if (sure === false) {
      return answer({ title: "Nothing was shared.", say: "Nothing was shared." });
    }
    const whole = sessionOf(bench, run);
    return form === "repeatable"
      ? asBlock(run, shareWith(whole).shared, sure === true)
      : asRecord(run, shareWith(whole), form === "picture", sure === true);
  },
});

/** The record in words, or in words and as a picture: the same session without what is private. */
function asRecord(
  run: Run,
  { shared, leftOut }: ReturnType<typeof shareWith>,
  drawn: boolean,
  sure: boolean,
): Reply {
  const title = `${shared.tank}: ${shared.title}`;
  const lines = [
    ...(shared.sheet.invented ? ["INVENTED figures, for trying out only."] : []),
    ...sessionLines(shared),
  ];
  const picture: ReplyPicture | undefined = drawn
    ? {
        kind: "session",
        name: `${run.id}-shared`,
        session: shared,
        words: [title, ...lines],
      }
    : undefined;
  const facts = {
    run: run.id,
    form: drawn ? "picture" : "text",
    left_out: { ...leftOut },
  };
  if (!sure) {
    const fields = { run: run.id, ...(drawn ? { form: "picture" } : {}) };
    return {
      ...confirm(
        "share",
        fields,
        "sure",
        `Share this ${drawn ? "picture " : ""}with the group? ${title}`,
        {
          lines: [...lines, `Left out: ${leftOutWords(leftOut)}.`],
          say: "Share it with the group? Look at it first.",
          facts: { ...facts, tank: run.tank },
          share: { run: run.id, title, lines, picture },
        },
      ),
      picture,
    };
  }
  return answer({
    title,
    lines,
    say: "Shared. Private things stayed here.",
    facts: { ...facts, shared: toJson({ shared }).shared ?? null },
    picture,
    shared: true,
  });
}

const COPY = "Copy this line whole; another bench takes it as it is.";

/** One line that can be copied whole. */
function asBlock(run: Run, shared: SharedSession, sure: boolean): Reply {
  const made = repeatableOf(shared, run);
  if (!made.ok) return refuse("not-repeatable", made.error);
  const block = JSON.stringify(made.value);
  const facts = { run: run.id, form: "repeatable" };
  if (!sure) {
    return confirm(
      "share",
      { run: run.id, form: "repeatable" },
      "sure",
      "Share this run so that another bench can repeat it?",
      {
        lines: [
          block,
          "It holds figures and the names of baths: no people, notes, places, dates or bottles.",
        ],
        say: "Share it as a plan to repeat?",
        facts: { ...facts, tank: run.tank },
        share: { run: run.id, title: COPY, lines: [block] },
      },
    );
  }
  return answer({
    title: COPY,
    lines: [block],
    say: "There it is. Copy the line whole.",
    facts: { ...facts, repeatable: toJson({ block: made.value }).block ?? null },
    shared: true,
  });
}
