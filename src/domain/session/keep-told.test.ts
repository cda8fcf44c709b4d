import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { seconds } from "../units/quantity.ts";
import { moveEnd } from "./drift-run.ts";
import { pouredIn, pouredOut } from "./hear.ts";
import { keepTold } from "./keep-told.ts";
import type { Run } from "./run.ts";

const wet = pouredIn(runOf([stageOf(), washOf()], { lead: 0 }), at(0));
const until = (before: Run, after: Run, now: number): number | undefined =>
  keepTold(benchWith(before), benchWith(after), at(now)).runs["run-1"]?.cuedUntil;

test("cues of a bath that were told stay told when a change of its time is taken back", () => {
  const moved = { ...moveEnd(wet, 0, seconds(220), "colder", at(60)), cuedUntil: at(120) };
  expect(until(moved, wet, 120)).toBe(at(120));
});

test("a pour-out that has come down to this moment is said", () => {
  const moved = { ...moveEnd(wet, 0, seconds(220), "colder", at(60)), cuedUntil: at(190) };
  expect(until(moved, wet, 190)).toBe(at(185));
});

test("another bath, or another start of it, is told anew", () => {
  const out = { ...pouredOut(wet, at(195)), cuedUntil: at(230) };
  expect(until(out, wet, 230)).toBe(wet.cuedUntil);
  const late = { ...pouredIn(wet, at(20)), cuedUntil: at(100) };
  expect(until(late, wet, 100)).toBe(wet.cuedUntil);
});
