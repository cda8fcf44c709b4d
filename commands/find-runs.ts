import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { foundJson, foundKeys, foundLines } from "../src/commands/found-runs.ts";
import { countRuns, searchRuns } from "../src/commands/search-runs.ts";
import { clauseSchema } from "../src/domain/log/wanted.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { answer } from "../src/reply/reply.ts";

export const findRunsCommand = defineCommand({
  name: "find runs",
  summary: "Runs of all times by film, push, process, person, bottle, tank, thermometer or date.",
  topic: "run",
  sentences: [
    "[show|list|find|give] [me] [all|past|old|earlier] runs [{filters}]",
    "(which|what|any|all) runs {filters}",
    "(every|each) (run|session) [{filters}]",
    "[show|list|find|give] [me] all [my] sessions [{filters}]",
    "how many runs [{filters}]",
    "[show|list|find|give] [me] [all] [my] {filters}",
    "(search|look) [through] [the] (log|runs|past) [for runs] {filters}",
  ],
  needs: ["runs", "sessions", "every", "each", "rehearsals", "log", "past"],
  examples: ["all runs with Dora", "runs pushed two stops in October", "runs with Acorn"],
  fields: z.object({ filters: z.array(clauseSchema).default([]) }),
  changes: false,
  aside: true,
  reads: "past-runs",
  values: {
    runs: foundKeys,
    count: "how many there are",
    of: "out of how many in all",
    asked: "what was understood",
  },
  run(at, { filters }) {
    const found = searchRuns(at, filters);
    if ("reply" in found) return found.reply;
    const { runs, all, words } = found;
    const { zone } = at.bench;
    const what = words === "" ? "" : ` ${words}`;
    const facts = { count: runs.length, of: all, asked: words };
    const last = runs.at(-1);
    if (last === undefined) {
      return answer({
        title: words === "" ? "No runs yet." : `No run${what}, of ${countRuns(all)} in all.`,
        say: words === "" ? "No runs yet." : `None, of ${countRuns(all)}.`,
        figures: { runs: { value: [], origin: { kind: "own log" } } },
        facts,
      });
    }
    const latest = showDate(dateOf(last.plannedAt, zone));
    const share = words === "" ? "" : ` of ${all}`;
    return answer({
      title: `${runs.length}${share} run${(words === "" ? runs.length : all) === 1 ? "" : "s"}${what === "" ? "" : `:${what}`}`,
      lines: foundLines(runs, zone),
      say: `${countRuns(runs.length)}, the latest on ${latest}.`,
      figures: { runs: { value: foundJson(runs), origin: { kind: "own log" } } },
      facts,
    });
  },
});
