import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { whichTank, withRun } from "../src/commands/tanks.ts";
import { latestRun, liveRuns, runOfTank } from "../src/domain/session/find-run.ts";
import { celsius } from "../src/domain/units/quantity.ts";
import { plain, showTemperature } from "../src/domain/units/show.ts";
import { answer, refuse, type Shown } from "../src/reply/reply.ts";

/** Off by more than this, °C, waits; below the other it is only noted (our own bounds, no source). */
const HOLD = 1;
const ASK = 0.3;

export const temperatureCommand = defineCommand({
  name: "temperature",
  summary: "Log what the thermometer reads and compare it with the sheet.",
  topic: "run",
  sentences: [
    "temperature [is|now] [at] {temperature} [in] [tank] [{tank}]",
    "temperature [is|now] [at] {temperature} (on|by|with) [the] {thermometer} [thermometer]",
    "[the] {thermometer} thermometer (is|reads|says) [at] {temperature}",
    "[the] {solution} [temperature] (is|reads|at|is at|now) [at] {temperature} [in tank {tank}]",
    "[the] (bath|thermometer|tank|it) (is|reads|is at|says|at) [at] {temperature}",
    "(reading|read) {temperature} [in tank {tank}]",
    "{solution} {temperature}",
    "temperature",
  ],
  slots: { sure: "yes", thermometer: "word" },
  examples: ["temperature 37.6", "developer is at 37.4", "temperature 100 F"],
  fields: z.object({
    temperature: z
      .number("What does the thermometer read, in the bath itself?")
      .min(-5, "No bath is that cold. Give the reading with its unit, like 37.8 C.")
      .max(100, "That is hotter than boiling water. Give the reading with its unit, like 37.8 C."),
    solution: z.string().optional(),
    tank: z.string().optional(),
    thermometer: z.string().max(30, "Say which thermometer in a word, like red.").optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    thermometer: "the thermometer it was read on, when one was named",
    tank: "tank",
    bath: "bath the reading is logged for",
    temp_c: "reading, °C",
    aim_c: "the sheet's temperature, °C",
    off_c: "reading less aim, °C",
    tolerance_c: "half width of the sheet's band, °C",
    within: "true when the reading is inside the band",
  },
  run({ bench, now }, { temperature, solution, tank, thermometer, sure }) {
    const value = celsius(temperature);
    const run =
      tank === undefined
        ? liveRuns(bench).length > 1
          ? undefined
          : (liveRuns(bench)[0] ?? undefined)
        : runOfTank(bench, tank);
    if (tank === undefined && liveRuns(bench).length > 1) {
      return whichTank(bench, "temperature", { temperature, solution });
    }
    if (run === undefined) {
      const past = latestRun(bench);
      return refuse(
        "nothing-running",
        `I read ${showTemperature(value)}, but no run is open to log it for.${past === undefined ? "" : ` The last one, ${past.tank}, is over.`}`,
        {
          say: "No run is open to log it for.",
          figures: { temp_c: { value: temperature, origin: { kind: "told" } } },
        },
      );
    }
    const named =
      solution === undefined
        ? run.current
        : run.stages.findIndex((stage) => stage.bath === solution || stage.kind === solution);
    const index = named < 0 ? run.current : named;
    const stage = run.stages[index];
    if (stage === undefined || run.endedAt !== undefined) {
      return refuse("over", `${run.tank} is over; say note to add the temperature to its record.`);
    }
    if ((temperature < 10 || temperature > 60) && sure === undefined) {
      return confirm(
        "temperature",
        { temperature, solution, tank: run.tank, thermometer },
        "sure",
        `${showTemperature(value)} in the ${stage.bath}? That is far from any bath.`,
      );
    }
    if (sure === false)
      return answer({ title: "Then nothing is logged.", say: "Then nothing is logged." });

    const logged = {
      ...run,
      readings: [
        ...run.readings,
        {
          at: now,
          stage: index,
          bath: stage.bath,
          temperature: value,
          ...(thermometer === undefined ? {} : { thermometer: thermometer.toLowerCase() }),
        },
      ],
    };
    const figures: Record<string, Shown> = {
      temp_c: { value: temperature, origin: { kind: "told" } },
    };
    const lines: string[] = [];
    let verdict = "logged";
    if (stage.temperature !== undefined && stage.temperatureOrigin !== undefined) {
      const off = temperature - stage.temperature;
      figures.aim_c = { value: stage.temperature, origin: stage.temperatureOrigin };
      figures.off_c = { value: off, origin: { kind: "computed", source: "reading less aim" } };
      if (stage.tolerance !== undefined) {
        figures.tolerance_c = { value: stage.tolerance, origin: stage.temperatureOrigin };
        verdict = judge(off, stage.tolerance);
        lines.push(`Aim ${showTemperature(stage.temperature)}, ±${plain(stage.tolerance, 2)} °C.`);
        if (Math.abs(off) > stage.tolerance + 1e-9)
          lines.push(...advice(off, stage.kind, stage.inAt !== undefined));
      }
    }
    const within = verdict === "in the band";
    const title = `${run.tank}: ${stage.bath} at ${showTemperature(value)}, ${verdict}.`;
    return withRun(
      bench,
      logged,
      answer({
        title,
        lines,
        say: `${plain(value, 1)}, ${verdict}.`,
        figures,
        facts: {
          tank: run.tank,
          bath: stage.bath,
          ...(thermometer === undefined ? {} : { thermometer: thermometer.toLowerCase() }),
          ...(stage.tolerance === undefined ? {} : { within }),
        },
      }),
    );
  },
});

function judge(off: number, tolerance: number): string {
  const size = Math.abs(off);
  if (size <= tolerance + 1e-9) return "in the band";
  return `${plain(size, 1)} ${size === 1 ? "degree" : "degrees"} too ${off > 0 ? "warm" : "cold"}`;
}

function advice(off: number, kind: string, wet: boolean): readonly string[] {
  const size = Math.abs(off);
  if (!kind.endsWith("developer")) return ["This bath is forgiving; bring it nearer when you can."];
  if (!wet) {
    return size > HOLD
      ? ["Do not pour yet: bring the developer itself to its temperature, then measure again."]
      : ["Bring the developer itself nearer before you pour, then measure again."];
  }
  return [
    "I do not change the time: in colour, time restores density, not the balance of the layers.",
    size > ASK ? "It is in the record as a deviation." : "A small one; it is in the record.",
  ];
}
