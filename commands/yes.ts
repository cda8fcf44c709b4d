import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { standingLine } from "../src/commands/run-lines.ts";
import { askingValues, askNext } from "../src/commands/teaching.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { applyEvent } from "../src/domain/session/advance.ts";
import { countFilm } from "../src/domain/session/count-film.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { settledChange } from "../src/domain/session/follow-bottles.ts";
import { standing } from "../src/domain/session/hear.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const yesCommand = defineCommand({
  name: "yes",
  summary: "It was poured, but the moment is past: the middle of the pour window counts.",
  topic: "run",
  sentences: ["(yes|yep|yeah|yes it is|it is|yes it was)"],
  examples: ["yes"],
  fields: z.object({}),
  changes: true,
  values: {
    tank: "tank",
    bath: "the bath that is in",
    plus_minus_s: "how far off its start may be, s",
    ...askingValues,
  },
  run({ bench, now }) {
    const run = liveRuns(bench).find((one) => standing(one, now).kind === "pouring");
    if (run === undefined && bench.draft !== undefined) return askNext(bench.draft, "");
    if (run === undefined) {
      return refuse(
        "no-question",
        "I have asked nothing that is open. Say help for what I can do.",
        {
          say: "I have no question open.",
        },
      );
    }
    const assumed = applyEvent(run, { kind: "assumed-in", at: now, stage: run.current });
    const stage = assumed.stages[run.current];
    const at = stage?.inAt === undefined ? "" : ` from ${clockTime(stage.inAt, bench.zone)}`;
    const counted = countFilm({ ...bench, runs: { ...bench.runs, [run.id]: assumed } }, run.id);
    const settled = ownValue(counted.runs, run.id) ?? assumed;
    const changed = settledChange(assumed, settled);
    return {
      bench: counted,
      reply: answer({
        title: `${run.tank}: then I count ${stage?.bath ?? "it"}${at}, the middle of the pour.`,
        lines: [standingLine(counted, settled, now), ...(changed === undefined ? [] : [changed])],
        say: "Good. I count from the middle of the pour.",
        facts: { tank: run.tank, bath: stage?.bath ?? null },
        figures: {
          plus_minus_s: {
            value: stage?.plusMinus ?? 0,
            origin: { kind: "computed", source: "half the pour window" },
          },
        },
      }),
    };
  },
});
