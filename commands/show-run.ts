import { z } from "zod";
import { askFor, defineCommand, type Handling } from "../src/commands/define-command.ts";
import { summaryOf, summaryValues } from "../src/commands/summary-text.ts";
import { runsOn } from "../src/domain/log/find-runs.ts";
import { allRuns } from "../src/domain/session/past.ts";
import { clockMinute, showDate } from "../src/domain/timing/clock-text.ts";
import { type Reply, refuse } from "../src/reply/reply.ts";

export const showRunCommand = defineCommand({
  name: "show run",
  summary: "The record of any run, by its number or its date.",
  topic: "run",
  sentences: [
    "[show|open|read] [me] [the] [(summary|record|report|log) of] [the] run [number] {number}",
    "[show|open|read] [me] [the] [(summary|record|report|log) of] [the] run (of|on|from) [the] {pastDate}",
    "how did [the] run (of|on|from) [the] {pastDate} go",
  ],
  examples: ["show run 12", "the run of 3 november"],
  fields: z.object({
    number: z.number().optional(),
    pastDate: z.string().optional(),
    id: z.string().optional(),
  }),
  slots: { id: "word" },
  changes: false,
  aside: true,
  reads: "past-runs",
  values: summaryValues,
  run({ bench, past }, { number, pastDate, id }) {
    const runs = allRuns(bench, past);
    const wanted = id ?? (number === undefined ? undefined : `run-${number}`);
    if (wanted !== undefined) {
      const run = bench.runs[wanted] ?? runs.find((one) => one.id === wanted);
      return run === undefined
        ? refuse("no-run", `There is no ${wanted.replace("-", " ")}. Say runs for a list.`)
        : summaryOf(bench, run, { private: true });
    }
    if (pastDate === undefined) return refuse("no-run", "Which run? Give its number or its date.");
    return onDate({ bench }, runs, pastDate);
  },
});

function onDate(
  { bench }: Pick<Handling, "bench">,
  runs: ReturnType<typeof allRuns>,
  date: string,
): Reply {
  const there = runsOn(runs, date, bench.zone);
  const [only] = there;
  if (only === undefined) {
    return refuse("no-run", `There is no run of ${showDate(date)}. Say runs for a list.`);
  }
  if (there.length === 1) return summaryOf(bench, only, { private: true });
  const options = there.map((run) => ({
    word: `${clockMinute(run.plannedAt, bench.zone)} ${run.tank}`,
    value: run.id,
  }));
  return askFor("show run", {}, "id", `Which run of ${showDate(date)}?`, options, {
    say: `${there.length} runs that day. Which one?`,
  });
}
