import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf } from "../../../test/support/runs.ts";
import { archiveOldRuns } from "./archive.ts";
import type { Run } from "./run.ts";

const ended = (number: number, endedAt = number * 100): Run => ({
  ...runOf([stageOf()]),
  id: `run-${number}`,
  tank: `Tank ${number}`,
  endedAt: at(endedAt),
  ending: "done",
});
const live: Run = { ...runOf([stageOf()]), id: "run-99" };
const many = (count: number) => Array.from({ length: count }, (_, at) => ended(at + 1));

test("eight ended runs stay at hand", () => {
  const bench = benchWith(...many(8), live);
  expect(archiveOldRuns(bench)).toEqual({ bench, runs: [] });
  expect(archiveOldRuns(bench).bench).toBe(bench);
});

test("what ended longest ago leaves first, and the bench remembers that it was there", () => {
  const bench = benchWith(...many(10), live);
  const { bench: after, runs } = archiveOldRuns(bench);
  expect(runs.map(({ id }) => id)).toEqual(["run-1", "run-2"]);
  expect(Object.keys(after.runs)).toHaveLength(9);
  expect(after.pastRuns).toMatchObject([
    { id: "run-1", title: "test", tank: "Tank 1", plannedAt: at(0) },
    { id: "run-2", title: "test", tank: "Tank 2", plannedAt: at(0) },
  ]);
});

test("the order they were begun in does not matter", () => {
  const first = ended(1, 5000);
  const { runs } = archiveOldRuns(benchWith(first, ...many(9).slice(1)));
  expect(runs.map(({ id }) => id)).toEqual(["run-2"]);
});

test("a run that is going on never leaves, however old", () => {
  const { bench, runs } = archiveOldRuns(benchWith(live, ...many(20)));
  expect(bench.runs["run-99"]).toBe(live);
  expect(runs).toHaveLength(12);
  expect(archiveOldRuns(bench).runs).toEqual([]);
});
