import { expect, test } from "vitest";
import { livedRun } from "../../../test/support/lived-run.ts";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { pouredIn } from "../session/hear.ts";
import type { Run } from "../session/run.ts";
import { celsius } from "../units/quantity.ts";
import { anyTankWet, openQuestion, unasked, unreadEnds } from "./open-questions.ts";

const warm = stageOf({ temperature: celsius(38) });
const plan = runOf([warm, washOf()]);
const lived = (...into: number[]): Run =>
  livedRun(plan, { read: into.map((one) => ({ stage: 0, into: one, temperature: 38 })) });

test.each([
  { read: [], ends: ["start", "end"] },
  { read: [-20], ends: ["end"] },
  { read: [10], ends: ["end"] },
  { read: [180], ends: ["start"] },
  { read: [100], ends: ["start", "end"] },
  { read: [10, 180], ends: [] },
])("read after $read s of 195 s, the developer is unread at $ends", ({ read, ends }) => {
  expect(unreadEnds(lived(...read))).toEqual(ends);
});

test("first the temperatures, then what was different, then nothing", () => {
  const run = lived();
  expect(openQuestion(run)).toEqual({ kind: "temperatures", ends: ["start", "end"] });
  const declined: Run = { ...run, after: { temperatures: "declined" } };
  expect(openQuestion(declined)).toEqual({ kind: "different" });
  expect(openQuestion({ ...declined, after: { ...declined.after, different: "" } })).toBe(
    undefined,
  );
});

test.each<[string, Partial<Run>]>([
  ["a rehearsal", { rehearsal: { speed: 5 } }],
  ["film that never went in", { nothingIn: true }],
])("nothing is asked of %s", (_, change) => {
  expect(openQuestion({ ...lived(), ...change })).toBe(undefined);
});

test("nothing is asked of a run that goes on, or whose developer has no aim", () => {
  expect(openQuestion(pouredIn(plan, at(40)))).toBe(undefined);
  expect(openQuestion(livedRun(runOf([stageOf()])))).toEqual({ kind: "different" });
});

test("a tank is wet from its first pour to its end", () => {
  const other = { ...plan, id: "run-2", tank: "South" };
  expect(anyTankWet(benchWith(other), at(0))).toBe(false);
  expect(anyTankWet(benchWith(other), at(35))).toBe(true);
  expect(anyTankWet(benchWith(pouredIn(other, at(40))), at(2000))).toBe(true);
  expect(anyTankWet(benchWith({ ...lived(), id: "run-2" }), at(2000))).toBe(false);
});

test("other tanks of the evening are asked about along with it, those of last week are not", () => {
  const run = lived();
  const south: Run = { ...lived(), id: "run-2", tank: "South" };
  const told: Run = { ...south, id: "run-3", after: { different: "" } };
  const old: Run = { ...south, id: "run-4", endedAt: at(-7 * 86_400) };
  expect(unasked(benchWith(run, south, told, old), run).map(({ id }) => id)).toEqual(["run-2"]);
});
