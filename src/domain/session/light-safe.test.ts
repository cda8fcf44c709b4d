import { describe, expect, test } from "vitest";
import { at, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { seconds } from "../units/quantity.ts";
import { lightSafety } from "./light-safe.ts";
import type { Stage } from "./run.ts";

// Safe after a whole fix: common practice, no source. Times invented.
const developed = stageOf({ inAt: at(0), outAt: at(200) });
const blix = (change: Partial<Stage>) =>
  stageOf({ bath: "blix", kind: "blix", sense: "at least", time: seconds(400), ...change });
const wash = washOf({ pourAt: at(700), inAt: at(700) });

const safety = (...stages: readonly Stage[]) => {
  const run = runOf(stages, { current: stages.length - 1 });
  return lightSafety(run, [run], at(720));
};

describe("after the blix", () => {
  test("that had its time, poured out a drain before its end, film is fixed", () => {
    expect(safety(developed, blix({ inAt: at(220), outAt: at(610) }), wash)).toMatchObject({
      kind: "fixed",
      bath: "blix",
    });
  });

  test("that was cut short it is not sure", () => {
    const short = blix({ inAt: at(220), outAt: at(500) });
    expect(safety(developed, short, wash)).toEqual({ kind: "unsure", bath: "blix", heard: true });
  });

  test("that nobody said was poured it is not sure, however long it had", () => {
    const assumed = blix({ inAt: at(220), outAt: at(700), plusMinus: seconds(10) });
    expect(safety(developed, assumed, wash)).toEqual({
      kind: "unsure",
      bath: "blix",
      heard: false,
    });
  });

  test("that was skipped it is unfixed, with no end to wait for", () => {
    expect(safety(developed, blix({ skipped: true }), wash)).toEqual({ kind: "unfixed" });
  });

  test("that was cut short and done again in full it is fixed", () => {
    const twice = [
      blix({ inAt: at(220), outAt: at(250) }),
      blix({ inAt: at(260), outAt: at(660) }),
    ];
    expect(safety(developed, ...twice, wash).kind).toBe("fixed");
  });
});
