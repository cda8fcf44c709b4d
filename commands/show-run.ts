import { z } from "zod";
import { askFor, defineCommand, type Handling } from "../src/commands/define-command.ts";
import { formValues, inForm, sessionForms } from "../src/commands/session-forms.ts";
import { runsOn } from "../src/domain/log/find-runs.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { allRuns } from "../src/domain/session/past.ts";
import { clockMinute, showDate } from "../src/domain/timing/clock-text.ts";
import { type Reply, refuse } from "../src/reply/reply.ts";

export const showRunCommand = defineCommand({
  name: "show run",
  summary: "The record of any run, by its number or its date.",
  topic: "run",
  sentences: [
    "[show|open|read] [me] [the] [(summary|record|report|log) of] [the] run [number] {number} [[as|in] [a] {form}]",
    "[show|draw|give] [me] [the|a] {form} [(summary|record|report)] of [the] run [number] {number}",
    "[show|open|read] [me] [the] [(summary|record|report|log) of] [the] run (of|on|from) [the] {pastDate} [[as|in] [a] {form}]",
    "[show|draw|give] [me] [the|a] {form} [(summary|record|report)] of [the] run (of|on|from) [the] {pastDate}",
    "how did [the] run (of|on|from) [the] {pastDate} go",
  ],
  examples: ["show run 12", "the run of 3 november", "picture of run 12"],
  fields: z.object({
    number: z.number().optional(),
    pastDate: z.string().optional(),
    id: z.string().optional(),
    form: z.enum(sessionForms).optional(),
  }),
  slots: { id: "word" },
  changes: false,
  aside: true,
  reads: "past-runs",
  values: formValues,
  run({ bench, past }, { number, pastDate, id, form = "text" }) {
    const runs = allRuns(bench, past);
    const wanted = id ?? (number === undefined ? undefined : `run-${number}`);
    if (wanted !== undefined) {
      const run = ownValue(bench.runs, wanted) ?? runs.find((one) => one.id === wanted);
      return run === undefined
        ? refuse("no-run", `There is no ${wanted.replace("-", " ")}. Say runs for a list.`)
        : inForm(bench, run, form);
    }
    if (pastDate === undefined) return refuse("no-run", "Which run? Give its number or its date.");
    return onDate({ bench }, runs, pastDate, form);
  },
});

function onDate(
  { bench }: Pick<Handling, "bench">,
  runs: ReturnType<typeof allRuns>,
  date: string,
  form: (typeof sessionForms)[number],
): Reply {
  const there = runsOn(runs, date, bench.zone);
  const [only] = there;
  if (only === undefined) {
    return refuse("no-run", `There is no run of ${showDate(date)}. Say runs for a list.`);
  }
  if (there.length === 1) return inForm(bench, only, form);
  const options = there.map((run) => ({
    word: `${clockMinute(run.plannedAt, bench.zone)} ${run.tank}`,
    value: run.id,
  }));
  return askFor("show run", { form }, "id", `Which run of ${showDate(date)}?`, options, {
    say: `${there.length} runs that day. Which one?`,
  });
}
