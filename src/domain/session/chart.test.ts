import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../../test/support/arbitrary-run.ts";
import { at, evening, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { celsius, celsiusDifference } from "../units/quantity.ts";
import { newBench } from "./bench.ts";
import { chartOf } from "./chart.ts";
import { decide } from "./decide.ts";
import { pouredIn, pouredOut, skipStage } from "./hear.ts";
import type { ReadingTaken, Run } from "./run.ts";

const warm = { temperature: celsius(38), tolerance: celsiusDifference(0.3) };
const plan = runOf([stageOf(warm), washOf()]);
const reading = (offset: number, temperature: number, stage = 0): ReadingTaken => ({
  at: at(offset),
  stage,
  bath: stage === 0 ? "developer" : "wash",
  temperature: celsius(temperature),
});

test("a plan has planned spans, no real ones, and its band", () => {
  const chart = chartOf(plan, evening);
  expect(chart.from).toBe(at(30));
  expect(chart.to).toBe(at(440));
  expect(chart.stages.map(({ planned, real }) => [planned, real])).toEqual([
    [{ from: at(40), to: at(235) }, undefined],
    [{ from: at(245), to: at(440) }, undefined],
  ]);
  expect(chart.stages[0]?.band?.low).toBeCloseTo(37.7, 9);
  expect(chart.stages[0]?.band?.high).toBeCloseTo(38.3, 9);
  expect(chart.stages[1]?.band).toBeUndefined();
});

test("a lived stage has what really happened beside what was planned", () => {
  const lived = pouredOut(pouredIn(plan, at(42)), at(250));
  const { stages } = chartOf(lived, at(260));
  expect(stages[0]?.planned).toEqual({ from: at(42), to: at(237) });
  expect(stages[0]?.real).toEqual({ from: at(42), to: at(250) });
  expect(stages[0]?.open).toBe(false);
  expect(stages[0]?.deviations).toEqual(["developer: 13 s longer than planned"]);
});

test("a bath that film is still in lasts until now", () => {
  const [stage] = chartOf(pouredIn(plan, at(42)), at(100)).stages;
  expect([stage?.open, stage?.real]).toEqual([true, { from: at(42), to: at(100) }]);
});

test("readings stand in order, from the start of their bath, against its band; its edges are inside", () => {
  const readings = [reading(100, 37.6), reading(62, 38.3), reading(35, 38.31), reading(260, 20, 1)];
  const [stage, wash] = chartOf({ ...pouredIn(plan, at(42)), readings }, at(150)).stages;
  expect(stage?.readings.map(({ into, verdict }) => [into, verdict])).toEqual([
    [-7, "above"],
    [20, "inside"],
    [58, "below"],
  ]);
  expect(wash?.readings.map(({ verdict }) => verdict)).toEqual(["no band"]);
});

test("a skipped bath has no span", () => {
  const { stages } = chartOf(skipStage(plan, 0, at(10)), at(20));
  expect([stages[0]?.skipped, stages[0]?.planned, stages[0]?.real]).toEqual([
    true,
    undefined,
    undefined,
  ]);
});

test("at any moment of any run: spans go forward, and every reading is there once", () => {
  const temperatures = fc.array(
    fc.tuple(fc.nat(2000), fc.integer({ min: 0, max: 600 }), fc.nat(4)),
    { maxLength: 30 },
  );
  const whole = fc.property(arbitraryRun, fc.nat(3000), temperatures, (run, now, taken) => {
    const live: Run =
      decide({ ...newBench("test", "UTC"), runs: { [run.id]: run } }, at(now)).bench.runs[run.id] ??
      run;
    const readings = taken.map(([offset, tenths, n]) => ({
      at: at(offset),
      stage: n % run.stages.length,
      bath: "",
      temperature: celsius(tenths / 10),
    }));
    const chart = chartOf({ ...live, readings }, at(now));
    expect(chart.stages).toHaveLength(run.stages.length);
    expect(chart.stages.flatMap((stage) => stage.readings)).toHaveLength(readings.length);
    for (const { planned, real } of chart.stages) {
      for (const span of [planned, real]) {
        if (span !== undefined) expect(span.to).toBeGreaterThanOrEqual(span.from);
      }
    }
  });
  fc.assert(whole);
});
