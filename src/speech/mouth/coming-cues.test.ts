import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { dailyLooks } from "../../commands/daily-looks.ts";
import { announce } from "../../conversation/announce.ts";
import { decide, nextCue } from "../../domain/session/decide.ts";
import { comingCues } from "./coming-cues.ts";

test("what is made beforehand is, word for word, what is then told", () => {
  let bench = benchWith(runOf([stageOf(), washOf({ bath: "wash" })]));
  for (let round = 0; round < 30; round += 1) {
    const due = nextCue(bench);
    if (due === undefined) break;
    const made = new Set(comingCues(bench).map(({ say }) => say));
    const decided = decide(bench, due, dailyLooks);
    const told = announce(decided.bench, decided.happenings, due);
    expect(told.filter(({ say }) => !made.has(say)).map(({ say }) => say)).toEqual([]);
    bench = decided.bench;
  }
  expect(nextCue(bench)).toBeUndefined();
});

test("nothing is made of a bench that rests or is dark", () => {
  expect(comingCues(benchWith())).toEqual([]);
  expect(comingCues({ ...benchWith(runOf([stageOf()])), mode: "dark" })).toEqual([]);
  expect(at(0)).toBeGreaterThan(0);
});
