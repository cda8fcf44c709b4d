import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { bathWithBottle } from "../src/commands/run-lines.ts";
import { runMeant, withRun } from "../src/commands/tanks.ts";
import { askingValues, takeAnswer } from "../src/commands/teaching.ts";
import { isDeveloper } from "../src/domain/process/sheet.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { skipStage, standing } from "../src/domain/session/hear.ts";
import { currentStage } from "../src/domain/session/run.ts";
import { nextQuestion } from "../src/domain/teaching/questions.ts";
import { nextStage } from "../src/domain/timing/cues.ts";
import { answer, refuse } from "../src/reply/reply.ts";

/** A bath has been poured in a run that is open. */
const isFilmWet = (bench: Bench): boolean =>
  liveRuns(bench).some(({ stages }) => stages.some(({ inAt }) => inAt !== undefined));

export const skipCommand = defineCommand({
  name: "skip",
  summary: "Leave a bath out that has not been poured.",
  topic: "run",
  sentences: ["skip [the] [{solution}] [[in] tank {tank}]", "skip (it|this|that|this one)"],
  slots: { sure: "yes" },
  examples: ["skip", "skip the wash"],
  fields: z.object({
    solution: z.string().optional(),
    tank: z.string().optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    tank: "tank",
    skipped: "the bath left out",
    next: "the bath that comes now, or null",
    ...askingValues,
  },
  run({ bench, now, listening }, { solution, tank, sure }) {
    const { draft } = bench;
    const open = draft === undefined ? undefined : nextQuestion(draft.answers);
    const bare = solution === undefined && tank === undefined && sure === undefined;
    if (draft !== undefined && open !== undefined && bare && !isFilmWet(bench)) {
      return takeAnswer(bench, draft, open, "skip", listening);
    }
    const meant = runMeant(bench, tank, "skip", { solution });
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const index =
      solution === undefined
        ? run.current
        : run.stages.findIndex(
            (stage, i) =>
              i >= run.current &&
              stage.skipped !== true &&
              (stage.bath === solution || stage.kind === solution),
          );
    const stage = run.stages[index];
    if (stage === undefined) {
      return refuse("no-such-bath", `No ${solution ?? "bath"} is left in this run.`);
    }
    if (index === run.current && standing(run, now).kind === "in") {
      return refuse("already-in", `${stage.bath} is on the film. Say out when it leaves.`, {
        say: `The ${stage.bath} is in. Say out instead.`,
      });
    }
    if (sure === undefined) {
      const warning = isDeveloper(stage.kind)
        ? "Without developer there is no picture."
        : "What a bath leaves undone shows later.";
      return confirm(
        "skip",
        { solution: stage.bath, tank: run.tank },
        "sure",
        `Skip ${stage.bath}? ${warning}`,
      );
    }
    if (!sure) return answer({ title: `${stage.bath} stays.`, say: `The ${stage.bath} stays.` });
    const skipped = skipStage(run, index, now);
    const wet = standing(skipped, now).kind === "in";
    const next = wet ? nextStage(skipped, skipped.current)?.stage : currentStage(skipped);
    const after = wet ? ` after ${currentStage(skipped)?.bath ?? ""}` : "";
    return withRun(
      bench,
      skipped,
      answer({
        title: `${run.tank}: ${stage.bath} skipped. ${next === undefined ? "That was the last bath." : `Next${after}: ${bathWithBottle(bench, next)}.`}`,
        say: next === undefined ? "Skipped. That was the last." : `Skipped. Next is ${next.bath}.`,
        facts: { tank: run.tank, skipped: stage.bath, next: next?.bath ?? null },
      }),
    );
  },
});
