import type { Bottle } from "../../src/domain/chemistry/bottle.ts";
import type { Roll } from "../../src/domain/film/roll.ts";
import type { Bench } from "../../src/domain/session/bench.ts";
import type { Run, Stage } from "../../src/domain/session/run.ts";
import {
  celsius,
  celsiusDifference,
  millilitres,
  seconds,
  units,
} from "../../src/domain/units/quantity.ts";
import { bottleOf } from "./bottles.ts";
import { livedRun } from "./lived-run.ts";
import { benchWith, evening, runOf, stageOf } from "./runs.ts";

/** What is to be found in the log of an evening. Everything else in it says nothing odd. */
export type Trouble = {
  /** Baths longer (above 0) or shorter than planned, s, by their place. */
  readonly off?: Readonly<Record<number, number>>;
  /** °C read in a bath, by its place; on the thermometer called red. */
  readonly read?: Readonly<Record<number, number>>;
  readonly stages?: Readonly<Record<number, Partial<Stage>>>;
  readonly acorn?: Partial<Bottle>;
  readonly banjo?: Partial<Bottle>;
  readonly run?: Partial<Run>;
  readonly roll?: Partial<Roll>;
  readonly bench?: Partial<Bench>;
  readonly note?: string;
  /** Film the developer and the later bath had done with this tank, units. */
  readonly done?: readonly [developer: number, later: number];
};

const bath = (name: string, time: number, aim: number, change: Partial<Stage> = {}): Stage =>
  stageOf({
    bath: name,
    kind: name,
    sense: name === "developer" ? "exact" : "at least",
    time: seconds(time),
    temperature: celsius(aim),
    tolerance: celsiusDifference(name === "developer" ? 0.2 : 2.5),
    ...change,
  });

/** Developer, blix, wash and stabilizer of the invented demo sheet. */
const colourBaths = [
  bath("developer", 205, 38.2, { bottle: "acorn" }),
  bath("blix", 410, 38, { bottle: "banjo" }),
  bath("wash", 190, 38),
  bath("stabilizer", 70, 24),
];

/** Developer, stop, fixer and wash; times and warmth invented. */
const silverBaths = [
  bath("developer", 480, 20, { bottle: "acorn" }),
  bath("stop", 30, 20),
  bath("fixer", 300, 20, { bottle: "banjo" }),
  bath("wash", 600, 20),
];

/**
 * A bench whose run `run-1` of tank North ended with this trouble. Figures invented; Acorn is the
 * developer, Banjo the blix or fixer.
 */
export function benchAfter(process: "C-41" | "black-and-white", trouble: Trouble = {}): Bench {
  const colour = process === "C-41";
  const baths = (colour ? colourBaths : silverBaths).map((stage, index) => ({
    ...stage,
    ...trouble.stages?.[index],
  }));
  const plan = runOf(baths, {
    sheet: colour ? "demo" : "black-and-white",
    process,
    rolls: ["roll-1"],
    film: [{ count: 1, format: "135-36" }],
  });
  const lived = livedRun(plan, { off: trouble.off ?? {} });
  const done = trouble.done ?? [5, 5];
  const run: Run = {
    ...lived,
    // What was never poured has no instants.
    stages: lived.stages.map((stage, index) => ({
      ...(stage.skipped === true ? without(stage) : stage),
      ...trouble.stages?.[index],
    })),
    readings: Object.entries(trouble.read ?? {}).map(([index, degrees]) => ({
      at: lived.stages[Number(index)]?.inAt ?? evening,
      stage: Number(index),
      bath: baths[Number(index)]?.bath ?? "",
      temperature: celsius(degrees),
      read: celsius(degrees),
      thermometer: "red",
    })),
    notes: trouble.note === undefined ? [] : [{ at: evening, text: trouble.note }],
    counted: [
      { bottle: "acorn", before: units(done[0] - 1), after: units(done[0]) },
      { bottle: "banjo", before: units(done[1] - 1), after: units(done[1]) },
    ],
    ...trouble.run,
  };
  const roll: Roll = {
    id: "roll-1",
    number: 1,
    format: "135-36",
    push: 0,
    important: false,
    doubtful: false,
    doneIn: "run-1",
    ...trouble.roll,
  };
  const sheet = colour ? "demo" : "black-and-white";
  return {
    ...benchWith(run),
    sheetInUse: sheet,
    rolls: { "roll-1": roll },
    bottles: {
      acorn: bottleOf({
        id: "acorn",
        sheet,
        mixedOn: "2026-11-10",
        used: units(done[0]),
        ...trouble.acorn,
      }),
      banjo: bottleOf({
        id: "banjo",
        name: "Banjo",
        bath: colour ? "blix" : "fixer",
        sheet,
        mixedOn: "2026-11-01",
        used: units(done[1]),
        volume: millilitres(1000),
        ...trouble.banjo,
      }),
    },
    ...trouble.bench,
  };
}

function without(stage: Stage): Stage {
  const { inAt: _, outAt: __, ...rest } = stage;
  return rest;
}
