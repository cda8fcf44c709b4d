import { z } from "zod";
import { defineCommand, type Handling } from "../src/commands/define-command.ts";
import { filterWords } from "../src/commands/filter-words.ts";
import { foundJson, foundKeys, foundLines } from "../src/commands/found-runs.ts";
import { countRuns, searchRuns } from "../src/commands/search-runs.ts";
import { findRuns } from "../src/domain/log/find-runs.ts";
import { isBath } from "../src/domain/log/run-facts.ts";
import { type Clause, clauseSchema } from "../src/domain/log/wanted.ts";
import type { Run } from "../src/domain/session/run.ts";
import { answer, type Reply } from "../src/reply/reply.ts";

export const howOftenCommand = defineCommand({
  name: "how often",
  summary: "In how many runs something happened: a wash ran short, a push, a skipped bath.",
  topic: "run",
  sentences: [
    "how often (did|do|does|was|were|has|have|is|are) {filters}",
    "how many times (did|do|does|was|were|has|have|is|are) {filters}",
  ],
  examples: ["how often did the wash run short"],
  fields: z.object({ filters: z.array(clauseSchema) }),
  changes: false,
  aside: true,
  reads: "past-runs",
  values: {
    runs: foundKeys,
    count: "in how many runs",
    of: "out of how many that could have",
    asked: "what was understood",
  },
  run(at, { filters }) {
    // "How often was the wash short in October": out of October's runs with a wash.
    const things = filters.filter(({ kind }) => kind !== "dates" && kind !== "name");
    const scope = things.length === 0 ? [] : filters.filter((one) => !things.includes(one));
    const within = searchRuns(at, scope);
    if ("reply" in within) return within.reply;
    const wanted = things.length === 0 ? searchRuns(at, filters) : undefined;
    if (wanted !== undefined && "reply" in wanted) return wanted.reply;
    const baths = things.flatMap((one) =>
      one.kind === "fault" && one.bath !== undefined ? [one.bath] : [],
    );
    const of =
      baths.length === 0
        ? within.runs
        : within.runs.filter((run) => baths.every((bath) => hadBath(run, bath)));
    const found = wanted?.runs ?? findRuns(of, things, new Map(), at.bench.zone);
    const words = [filterWords(things, new Map()), wanted?.words ?? within.words]
      .filter((part) => part !== "")
      .join(", ");
    return counted(at, found, of.length, words, things);
  },
});

const hadBath = (run: Run, bath: string): boolean =>
  run.stages.some((stage) => isBath(stage, bath) && (stage.inAt !== undefined || stage.skipped));

function counted(
  { bench }: Handling,
  runs: readonly Run[],
  of: number,
  words: string,
  things: readonly Clause[],
): Reply {
  const bath = things.find((one) => one.kind === "fault");
  const that = bath?.kind === "fault" && bath.bath !== undefined ? ` with a ${bath.bath}` : "";
  const times = runs.length === 0 ? "never" : runs.length === 1 ? "once" : `${runs.length} times`;
  return answer({
    title: `${words}: ${times} in ${countRuns(of)}${that}`,
    lines: foundLines(runs, bench.zone),
    say: `${times.charAt(0).toUpperCase()}${times.slice(1)}, in ${countRuns(of)}.`,
    figures: { runs: { value: foundJson(runs), origin: { kind: "own log" } } },
    facts: { count: runs.length, of, asked: words },
  });
}
