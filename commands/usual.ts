import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { countRuns, searchRuns } from "../src/commands/search-runs.ts";
import { developerReading, realTime } from "../src/domain/log/run-facts.ts";
import { type Spread, spreadOf } from "../src/domain/log/spread.ts";
import { clauseSchema } from "../src/domain/log/wanted.ts";
import type { Run } from "../src/domain/session/run.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { celsius, seconds } from "../src/domain/units/quantity.ts";
import { plain, showDuration, showTemperature } from "../src/domain/units/show.ts";
import { answer, type Json, type Reply, type Shown } from "../src/reply/reply.ts";

type Taken = { readonly value: number; readonly verified: boolean; readonly run: Run };

export const usualCommand = defineCommand({
  name: "usual",
  summary: "What you usually do: the middle of all runs with its range, by temperature or time.",
  topic: "run",
  sentences: [
    "what temperature (do|does|did) (i|we|it) [usually|normally|typically|mostly] {edge} (at|with) [{filters}]",
    "what temperature [(do|does|did) (i|we|it)] [usually|normally|typically|mostly] {edge} [{filters}]",
    "(what is|what are) (my|our|the) usual [developer] {edge} [temperature] [{filters}]",
    "(what is|what are) (my|our|the) usual temperature (at|in) [the] {edge} [{filters}]",
    "[what is] (my|our|the) usual {edge} temperature [{filters}]",
    "how long (do|does) (i|we|it) (usually|normally|typically|mostly) {bath} [{filters}]",
    "how long is (my|our|the) {bath} (usually|normally|typically|mostly) [{filters}]",
    "[what is|what are] [my|our|the] usual {bath} time [{filters}]",
    "how (warm|hot|cold) (is|do i have|do we have) [the] [my|our] [developer] (usually|normally|typically|mostly) [at|in] [the] {edge} [{filters}]",
    "(what is|what are) (my|our|the) usual time (in|of|for) [the] {bath} [{filters}]",
  ],
  needs: ["usually", "normally", "typically", "mostly", "usual", "temperature"],
  examples: ["what temperature do I usually end at", "how long do I usually wash"],
  fields: z.object({
    edge: z.enum(["start", "end"]).optional(),
    bath: z.string().optional(),
    filters: z.array(clauseSchema).default([]),
  }),
  changes: false,
  reads: "past-runs",
  values: {
    asked: "what was understood",
    bath: "the bath it is about",
    edge: "start or end of the developer; missing for times",
    temp_c: "median, °C",
    time_s: "median, s",
    least: "the least, °C or s",
    most: "the most, °C or s",
    count: "how many runs it is from",
    unverified: "how many of the readings had no known offset",
    of: "runs looked at",
  },
  run(at, { edge, bath, filters }) {
    const found = searchRuns(at, filters);
    if ("reply" in found) return found.reply;
    const { zone } = at.bench;
    const named = bath ?? "developer";
    const taken: Taken[] = [];
    for (const run of found.runs) {
      if (edge === undefined) {
        const value = realTime(run, named);
        if (value !== undefined) taken.push({ value, verified: true, run });
      } else {
        const read = developerReading(run, edge);
        if (read !== undefined) {
          taken.push({ value: read.temperature, verified: read.verified, run });
        }
      }
    }
    const spread = spreadOf(taken.map(({ value }) => value));
    const asked = { words: found.words, of: found.runs.length };
    return spread === undefined
      ? nothingKnown(edge, named, asked)
      : usual(edge, named, asked, taken, spread, zone);
  },
});

type Asked = { readonly words: string; readonly of: number };

const about = (edge: "start" | "end" | undefined, bath: string): string =>
  edge === undefined ? `time in the ${bath}` : `developer temperature at the ${edge}`;

function nothingKnown(edge: "start" | "end" | undefined, bath: string, asked: Asked): Reply {
  return answer({
    title: `I have no ${about(edge, bath)} to go by, in ${countRuns(asked.of)}${asked.words === "" ? "" : ` ${asked.words}`}.`,
    lines: edge === undefined ? [] : ["Say temperature and a number while the developer is in."],
    say: "I have nothing to go by yet.",
    facts: { asked: asked.words, of: asked.of, bath },
  });
}

function usual(
  edge: "start" | "end" | undefined,
  bath: string,
  asked: Asked,
  taken: readonly Taken[],
  { count, median, least, most }: Spread,
  zone: string,
): Reply {
  const show = (value: number): string =>
    edge === undefined ? showDuration(seconds(value)) : showTemperature(celsius(value));
  const short = (value: number): string =>
    edge === undefined ? showDuration(seconds(value)) : `${plain(value, 1)} °C`;
  const on = (value: number): string => {
    const run = taken.findLast((one) => one.value === value)?.run;
    return run === undefined ? "" : ` on ${showDate(dateOf(run.plannedAt, zone))}`;
  };
  const unverified = taken.filter(({ verified }) => !verified).length;
  const origin = { kind: "own log", source: `median of ${countRuns(count)}` } as const;
  const key = edge === undefined ? "time_s" : "temp_c";
  const figures: Record<string, Shown> = {
    [key]: { value: median, origin },
    least: { value: least, origin: { kind: "own log" } },
    most: { value: most, origin: { kind: "own log" } },
  };
  const facts: Record<string, Json> = {
    asked: asked.words,
    of: asked.of,
    count,
    bath,
    ...(edge === undefined ? {} : { edge, unverified }),
  };
  return answer({
    title: `Usual ${about(edge, bath)}${asked.words === "" ? "" : ` (${asked.words})`}: ${show(median)}`,
    lines: [
      count === 1
        ? "From 1 run only: no habit yet."
        : `The middle of ${countRuns(count)}; least ${short(least)}${on(least)}, most ${short(most)}${on(most)}.`,
      ...(unverified === 0
        ? []
        : [
            `${count === 1 ? "Read" : `${unverified} of them read`} on a thermometer whose offset is not known.`,
          ]),
      ...(asked.of > count
        ? [`${countRuns(asked.of - count)} without such a figure left out.`]
        : []),
    ],
    say: `Usually ${short(median)}, from ${countRuns(count)}.`,
    figures,
    facts,
    working: [
      edge === undefined
        ? "Times from full to out where both were heard; the median of them."
        : `Readings in the ${edge === "start" ? "first" : "second"} half of the developer, one a run; the median of them.`,
    ],
  });
}
