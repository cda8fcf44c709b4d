import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { giveBack } from "../src/domain/session/count-film.ts";
import { latestRun, liveRuns, runOfTank } from "../src/domain/session/find-run.ts";
import { plain } from "../src/domain/units/show.ts";
import { answer, type Json, refuse } from "../src/reply/reply.ts";

export const nothingInCommand = defineCommand({
  name: "nothing in",
  summary: "The film of a run never went in: its bottles get their count back.",
  topic: "bottle",
  sentences: [
    "(nothing|no film) [ever] went in [[in] [tank] {tank} [tank]]",
    "[the] film never went in [[to] [tank] {tank} [tank]]",
    "(it|that) was (only|just) water",
    "(it|that) was [only|just] (a rehearsal|a dry run)",
    "(do not|never) count (that|this|the last) [run]",
  ],
  slots: { sure: "yes" },
  examples: ["nothing went in"],
  fields: z.object({ tank: z.string().optional(), sure: z.boolean().optional() }),
  changes: true,
  values: {
    tank: "tank of the run",
    bottles: "one entry a bottle: bottle, units (film it has done now), given_back_units",
  },
  run({ bench }, { tank, sure }) {
    const run =
      tank === undefined ? (liveRuns(bench)[0] ?? latestRun(bench)) : runOfTank(bench, tank);
    if (run === undefined) {
      return refuse("no-run", "There is no run whose count I could give back.", {
        say: "There is no run to give back.",
      });
    }
    const loaded = Object.values(bench.rolls).some(({ doneIn }) => doneIn === run.id);
    if (run.counted.length === 0 && !loaded) {
      return refuse("nothing-counted", `${run.tank}: no bottle was counted, so nothing changes.`, {
        say: "No bottle was counted. Nothing changes.",
      });
    }
    const names = run.counted.map(({ bottle }) => ownValue(bench.bottles, bottle)?.name ?? bottle);
    if (sure === undefined) {
      return confirm(
        "nothing in",
        { tank: run.tank },
        "sure",
        `${run.tank}: no film went in, and ${names.length === 0 ? "its rolls wait again" : `${names.join(", ")} ${names.length === 1 ? "gets its" : "get their"} count back`}?`,
        { say: "No film went in? I give the count back." },
      );
    }
    if (!sure) return answer({ title: "Then the count stands.", say: "Then the count stands." });
    const after = giveBack(bench, run.id);
    const rows: Json[] = run.counted.map(({ bottle, before, after: high }) => ({
      bottle: ownValue(after.bottles, bottle)?.name ?? bottle,
      units: ownValue(after.bottles, bottle)?.used ?? 0,
      given_back_units: high - before,
    }));
    return {
      bench: after,
      reply: answer({
        title: `${run.tank}: nothing went in. The count is given back.`,
        lines: run.counted.map(({ bottle }) => {
          const found = ownValue(after.bottles, bottle);
          return `${found?.name ?? bottle}: ${plain(found?.used ?? 0, 2)} units done`;
        }),
        say: "The count is given back.",
        facts: { tank: run.tank },
        figures: { bottles: { value: rows, origin: { kind: "own log" } } },
      }),
    };
  },
});
