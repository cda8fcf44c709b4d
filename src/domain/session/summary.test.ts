import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { celsius, celsiusDifference, seconds } from "../units/quantity.ts";
import { decide } from "./decide.ts";
import { pouredIn, pouredOut, skipStage } from "./hear.ts";
import type { Run, Stage } from "./run.ts";
import { stageRecords } from "./summary.ts";

/** One bath, in at 40 s, out after `real` s. */
const done = (stage: Stage, real: number): Run =>
  pouredOut(pouredIn(runOf([stage]), at(40)), at(40 + real));

const deviations = (run: Run) => stageRecords(run).flatMap((record) => record.deviations);

test.each([
  { what: "developer to the second", stage: stageOf(), real: 195, says: [] },
  { what: "developer 5 s over: slower than a clock", stage: stageOf(), real: 200, says: [] },
  { what: "developer 5 s short: the same", stage: stageOf(), real: 190, says: [] },
  {
    what: "developer 6 s over",
    stage: stageOf(),
    real: 201,
    says: ["developer: 6 s longer than planned"],
  },
  {
    what: "developer a minute and ten short",
    stage: stageOf(),
    real: 125,
    says: ["developer: 1:10 shorter than planned"],
  },
  {
    what: "a wash ten minutes over: minimums may run on",
    stage: washOf(),
    real: 795,
    says: [],
  },
  {
    what: "a wash 15 s short",
    stage: washOf(),
    real: 180,
    says: ["wash: 15 s shorter than planned, and its time is a minimum"],
  },
])("$what", ({ stage, real, says }) => {
  const run = done(stage, real);
  expect(stageRecords(run)[0]).toMatchObject({ real, planned: 195, start: at(40) });
  expect(deviations(run)).toEqual(says);
});

test("what was not heard is said, and no length is made of it", () => {
  const run = decide(benchWith(runOf([washOf()])), at(5000)).bench.runs["run-1"];
  expect(run && deviations(run)).toEqual([
    'wash: "in" was not heard, start assumed, ±10 s',
    'wash: "out" was not heard, planned end taken',
  ]);
});

test("a skipped bath is a deviation", () => {
  const run = skipStage(runOf([stageOf(), washOf()]), 1, at(10));
  expect(deviations(run)).toEqual(["wash was skipped"]);
});

test.each([
  { reads: 37.8, says: [] },
  { reads: 37.95, says: [] },
  { reads: 37.65, says: [] },
  { reads: 38, says: ["developer: read 38 °C, 0.2 °C above 37.8 °C (±0.15 °C)"] },
  { reads: 36.5, says: ["developer: read 36.5 °C, 1.3 °C below 37.8 °C (±0.15 °C)"] },
])(
  "$reads °C against 37.8 ±0.15: Z-131, Minilab Processors, Table 4-1 (read)",
  ({ reads, says }) => {
    const stage = stageOf({ temperature: celsius(37.8), tolerance: celsiusDifference(0.15) });
    const reading = { at: at(60), stage: 0, bath: "developer", temperature: celsius(reads) };
    expect(deviations({ ...done(stage, 195), readings: [reading] })).toEqual(says);
  },
);

test("a reading belongs to the bath it was taken in", () => {
  const stages = [
    stageOf({ temperature: celsius(37.8), tolerance: celsiusDifference(0.15) }),
    washOf({ temperature: celsius(38), tolerance: celsiusDifference(3) }),
  ];
  const reading = { at: at(300), stage: 1, bath: "wash", temperature: celsius(36) };
  const [developer, wash] = stageRecords({ ...runOf(stages), readings: [reading] });
  expect(developer?.readings).toEqual([]);
  expect(wash?.readings).toEqual([reading]);
  expect(wash?.deviations).toEqual([]);
});

test("a bath without a band takes any reading", () => {
  const reading = { at: at(60), stage: 0, bath: "developer", temperature: celsius(20) };
  const stage = stageOf({ temperature: celsius(38) });
  expect(deviations({ ...done(stage, 195), readings: [reading] })).toEqual([]);
});

test("a bath that goes on has no length yet", () => {
  const [record] = stageRecords(pouredIn(runOf([stageOf({ time: seconds(60) })]), at(40)));
  expect(record).toMatchObject({ start: at(40), end: undefined, real: undefined, deviations: [] });
});
