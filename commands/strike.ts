import { z } from "zod";
import { coldReply } from "../src/commands/cold-reply.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { type DriftParts, driftReply } from "../src/commands/drift-reply.ts";
import { driftValues } from "../src/commands/drift-words.ts";
import { type Heat, heatField } from "../src/commands/heats.ts";
import { whichTank } from "../src/commands/tanks.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { weighAnew } from "../src/domain/session/drift-run.ts";
import { latestRun, liveRuns, runOfTank } from "../src/domain/session/find-run.ts";
import type { ReadingTaken, Run } from "../src/domain/session/run.ts";
import { struck } from "../src/domain/session/strike-reading.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { toFahrenheit } from "../src/domain/units/conversions.ts";
import { plain, showCelsius } from "../src/domain/units/show.ts";
import { refuse } from "../src/reply/reply.ts";

const cross = "(strike|strike out|cross out|scrap|discard|remove|delete|drop|forget)";
const where = "[(in|from) [tank] {tank}]";

export const strikeCommand = defineCommand({
  name: "strike",
  summary: "Strike a reading that was a slip; the bath is weighed again without it.",
  topic: "run",
  sentences: [
    `${cross} [that|this|the|my] [last] [temperature] reading ${where}`,
    `${cross} [that|this|the|my] [reading] [of] {temperature} ${where}`,
    `${cross} [that|this|the|my] {temperature} reading ${where}`,
    `[that|the|my] [last] (reading|temperature) was [a] (wrong|slip|mistake|typo|misread) ${where}`,
    `i misread [it|that|the thermometer] ${where}`,
    `[tank] {tank} [tank] ${cross} [that|this|the|my] [last] [temperature] reading`,
  ],
  slots: { temperature: "heat" },
  examples: ["strike that reading", "strike 27.4", "the last reading was wrong"],
  fields: z.object({
    /** What it was, as it was said; missing: the latest one. */
    temperature: heatField("Which reading?").optional(),
    tank: z.string().optional(),
  }),
  changes: true,
  values: {
    tank: "tank",
    bath: "bath the reading was of",
    struck_c: "the reading that was struck, °C as it was taken for",
    at: "ISO instant it was read at",
    ...driftValues,
  },
  run({ bench, now }, wanted) {
    const { tank, temperature } = wanted;
    const run = runWith(bench, tank);
    if (run === "several") return whichTank(bench, "strike", wanted);
    const reading = run === undefined ? undefined : meant(run, temperature);
    if (run === undefined || reading === undefined) return noReading(run, temperature);
    const index = reading.stage;
    const { at, bath } = reading;
    const without = struck(run, reading, now);
    const left = without.readings.filter(({ stage }) => stage === index).length;
    const size = showCelsius(reading.temperature);
    const parts: DriftParts = {
      title: `${run.tank}: ${bath} ${size} of ${clockTime(at, bench.zone)} is struck.`,
      say: `${plain(reading.temperature, 1)} is struck.`,
      lines: [
        left === 0
          ? `No reading of the ${bath} is left.`
          : `${left} ${left === 1 ? "reading" : "readings"} of the ${bath} left.`,
      ],
      figures: { struck_c: { value: reading.temperature, origin: { kind: "own log" } } },
      facts: {
        tank: run.tank,
        bath,
        at: Temporal.Instant.fromEpochMilliseconds(Math.round(at)).toString(),
      },
      cautions: [],
    };
    const weighed = weighAnew(without, index, now);
    return weighed === undefined
      ? coldReply(bench, without, index, parts, now)
      : driftReply(bench, without, index, weighed, parts, now);
  },
});

/** The run meant: the named tank's, the only one with readings, or the last where none is open. */
function runWith(bench: Bench, tank: string | undefined): Run | "several" | undefined {
  if (tank !== undefined) return runOfTank(bench, tank);
  const live = liveRuns(bench);
  const read = live.filter(({ readings }) => readings.length > 0);
  if (read.length > 1) return "several";
  return read[0] ?? live[0] ?? latestRun(bench);
}

/** The latest reading, or the latest that read so much: as shown or as corrected, in either scale. */
const meant = (run: Run, said: Heat | undefined): ReadingTaken | undefined =>
  run.readings.findLast(({ temperature, read = temperature }) => {
    if (said === undefined) return true;
    const { degrees, scale } = said;
    return [read, temperature].some(
      (one) =>
        (scale !== "F" && Math.abs(one - degrees) < 0.051) ||
        (scale !== "C" && Math.abs(toFahrenheit(one) - degrees) < 0.051),
    );
  });

function noReading(run: Run | undefined, said: Heat | undefined) {
  const readings = run?.readings ?? [];
  if (run === undefined || readings.length === 0) {
    return refuse("no-reading", "I have no reading to strike.");
  }
  const list = readings.map(({ temperature, read }) => plain(read ?? temperature, 1)).join(", ");
  return refuse(
    "no-such-reading",
    `${run.tank} has no reading of ${said === undefined ? "that" : plain(said.degrees, 2)}. It has ${list} °C: say strike and one of them.`,
    { say: "No such reading. Say strike and its number." },
  );
}
