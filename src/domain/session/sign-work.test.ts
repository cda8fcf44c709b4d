import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { seconds } from "../units/quantity.ts";
import { pouredIn, pouredOut } from "./hear.ts";
import type { Run } from "./run.ts";
import { signWork } from "./sign-work.ts";

const planned = runOf([stageOf(), washOf()]);
const signed = (before: Run | undefined, after: Run, who: string): Run => {
  const was = before === undefined ? benchWith() : benchWith(before);
  const run = signWork(was, benchWith(after), who).runs[after.id];
  if (run === undefined) throw new Error("the run is gone");
  return run;
};

test("who plans, who pours in and who pours out stand beside what they did", () => {
  const begun = signed(undefined, planned, "Ines");
  const full = signed(begun, pouredIn(begun, at(30)), "Dora");
  const out = signed(full, pouredOut(full, at(220)), "Bruno");
  expect(begun.by).toBe("Ines");
  expect(out).toMatchObject({ by: "Ines", stages: [{ inBy: "Dora", outBy: "Bruno" }, {}] });
  expect(out.stages[1]).not.toHaveProperty("inBy");
});

test("what the clock assumed is nobody's until somebody confirms it", () => {
  const assumed = runOf([
    stageOf({ inAt: at(40), plusMinus: seconds(10), outAt: at(235), outByClock: true }),
    washOf(),
  ]);
  expect(signed(planned, assumed, "Ines").stages[0]).not.toHaveProperty("inBy");
  expect(signed(planned, assumed, "Ines").stages[0]).not.toHaveProperty("outBy");
  const { outByClock: _, plusMinus: __, ...sure } = assumed.stages[0] ?? stageOf();
  const known = { ...assumed, stages: [sure, washOf()] };
  expect(signed(assumed, known, "Dora").stages[0]).toMatchObject({ inBy: "Dora", outBy: "Dora" });
});

test("a word that moves nothing of a bath leaves its names, and the bench, as they were", () => {
  const run = { ...planned, stages: [stageOf({ inAt: at(40), inBy: "Ines" }), washOf()] };
  const noted = { ...run, notes: [{ at: at(50), text: "wet" }] };
  expect(signed(run, noted, "Dora")).toEqual(noted);
  const bench = benchWith(run);
  expect(signWork(bench, { ...bench, name: "other" }, "Dora").runs).toBe(bench.runs);
});
