import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { foundJson, foundKeys, foundLine } from "../src/commands/found-runs.ts";
import { countRuns, searchRuns } from "../src/commands/search-runs.ts";
import { sessionOf } from "../src/commands/session-of.ts";
import { clauseSchema } from "../src/domain/log/wanted.ts";
import { dateOf, daysBetween, showDate } from "../src/domain/timing/clock-text.ts";
import { seconds } from "../src/domain/units/quantity.ts";
import { plain, showDuration } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

const ago = (days: number): string =>
  days === 0 ? "today" : days === 1 ? "yesterday" : `${days} days ago`;

export const lastTimeCommand = defineCommand({
  name: "last time",
  summary: "The latest run of a kind: when, how long, at what temperature, what was odd.",
  topic: "run",
  sentences: [
    "[when was] (last time|latest time) [that] {filters}",
    "when (did|have) (i|we) last {filters}",
    "(last|latest|previous) run {filters}",
    "when was the (last|latest) run {filters}",
    "[when was] [the] (last time|latest time) [that] (i|we) (developed|did|ran) [a|some|any] [film|films|roll|rolls|anything]",
    "when did (i|we) last (develop|run) [a|some|any] [film|films|roll|rolls|anything]",
  ],
  examples: ["last time I pushed two stops", "last time I developed"],
  fields: z.object({ filters: z.array(clauseSchema).default([]) }),
  changes: false,
  aside: true,
  reads: "past-runs",
  values: {
    runs: foundKeys,
    count: "how many of that kind there are",
    of: "out of how many in all",
    asked: "what was understood",
    date: "ISO date of the latest",
    days: "how many days ago that was",
    time_s: "how long its developer was in, s; missing where it is not known",
  },
  run(at, { filters }) {
    const found = searchRuns(at, filters);
    if ("reply" in found) return found.reply;
    const { bench, now } = at;
    const { runs, all, words } = found;
    const facts = { count: runs.length, of: all, asked: words };
    const run = runs.at(-1);
    if (run === undefined) {
      return answer({
        title:
          words === ""
            ? "Never: no run is in the log yet."
            : `Never: no run ${words}, of ${countRuns(all)} in all.`,
        say: `Never, in ${countRuns(all)}.`,
        facts,
      });
    }
    const session = sessionOf(bench, run);
    const date = dateOf(run.plannedAt, bench.zone);
    const days = daysBetween(date, dateOf(now, bench.zone));
    const developer = session.stages.find(({ kind }) => kind.includes("developer"));
    const real = developer?.real_s ?? undefined;
    const read = developer?.readings.map(({ temp_c }) => plain(temp_c, 1)) ?? [];
    const how = [
      ...(real === undefined
        ? []
        : [
            `in for ${showDuration(seconds(real))} (planned ${showDuration(seconds(developer?.planned_s ?? 0))})`,
          ]),
      ...(read.length === 0 ? [] : [`read ${read.join(", ")} °C`]),
    ];
    const more = runs.length - 1;
    return answer({
      title: `Last time${words === "" ? "" : ` ${words}`}: ${showDate(date)}, ${ago(days)}`,
      lines: [
        foundLine(run, bench.zone),
        ...(developer === undefined || how.length === 0
          ? []
          : [`${developer.bath}: ${how.join(", ")}`]),
        ...session.deviations.map((deviation) => `Deviation: ${deviation}`),
        more === 0 ? "The only one of its kind." : `${more} more before it.`,
      ],
      say: `${showDate(date)}, ${ago(days)}, in ${run.tank}.`,
      figures: {
        runs: { value: foundJson(runs), origin: { kind: "own log" } },
        ...(real === undefined ? {} : { time_s: { value: real, origin: { kind: "own log" } } }),
      },
      facts: { ...facts, date, days },
    });
  },
});
