import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf } from "../../../test/support/runs.ts";
import { decide } from "../session/decide.ts";
import { pouredIn } from "../session/hear.ts";
import type { Run } from "../session/run.ts";
import { withBeatsTold } from "./beats-told.ts";

/** Beats at 60, 90, 120, 150 and 180 s of a bath that went in at 40 s. */
const wet = pouredIn(runOf([stageOf()]), at(40));

function told(run: Run, moments: readonly number[]) {
  let bench = benchWith(run);
  for (const moment of moments) {
    const decided = decide(bench, at(moment));
    bench = withBeatsTold(decided.bench, decided.happenings);
  }
  const { beatsSilent, beatsLate } = bench.runs["run-1"]?.stages[0] ?? {};
  return { silent: beatsSilent, late: beatsLate };
}

test("what is told in time leaves no word", () => {
  expect(told(wet, [100, 130, 160])).toEqual({ silent: undefined, late: undefined });
});

test("what falls into a hold is silent, told in time or not", () => {
  expect(told({ ...wet, quiet: true }, [100, 135])).toEqual({ silent: [60, 90], late: undefined });
});

test("what is told later than two seconds is late", () => {
  expect(told(wet, [101, 145])).toEqual({ silent: undefined, late: [90] });
});
