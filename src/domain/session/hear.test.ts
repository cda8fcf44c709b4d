import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { stageCues } from "../timing/cues.ts";
import type { Instant } from "../units/quantity.ts";
import { decide } from "./decide.ts";
import {
  awaitsEnd,
  awaitsOut,
  confirmEnd,
  confirmOut,
  isLateIn,
  openWindow,
  pouredIn,
  pouredOut,
  putOff,
  skipStage,
  standing,
} from "./hear.ts";
import type { Run } from "./run.ts";

const three = () => runOf([stageOf(), washOf(), stageOf({ bath: "blix", kind: "blix" })]);

/** The run as the clock alone has moved it by then. */
function alone(run: Run, now: Instant): Run {
  const moved = decide(benchWith(run), now).bench.runs[run.id];
  if (moved === undefined) throw new Error("the run is gone");
  return moved;
}

const untold = (run: Run) =>
  stageCues(run)
    .filter(({ at: when }) => when >= run.cuedUntil)
    .map(({ kind }) => kind);

test("a run stands in its plan, its pour, its bath and its end, one after the other", () => {
  const run = runOf([stageOf()]);
  expect(standing(run, at(29))).toMatchObject({ kind: "planned", pourAt: at(30) });
  expect(standing(run, at(30))).toMatchObject({ kind: "pouring", openFor: 0 });
  expect(standing(run, at(37))).toMatchObject({ kind: "pouring", openFor: 7 });
  const wet = pouredIn(run, at(45));
  expect(standing(wet, at(100))).toMatchObject({
    kind: "in",
    gone: 55,
    left: 140,
    untilPourOut: 130,
  });
  expect(standing(wet, at(250))).toMatchObject({ kind: "in", left: -10 });
  expect(standing(pouredOut(wet, at(240)), at(240))).toEqual({ kind: "over" });
});

test("ready opens the window now and is its own pour cue", () => {
  const run = openWindow(runOf([stageOf()]), at(5));
  expect(run.stages[0]?.pourAt).toBe(at(5));
  expect(untold(run)).not.toContain("pour");
  expect(untold(run)).toContain("ask-in");
});

test("wait leaves nobody a moment to pour at, until ready", () => {
  const waiting = putOff(three());
  expect(standing(waiting, at(500))).toMatchObject({ kind: "planned", pourAt: undefined });
  expect(alone(waiting, at(5000))).toEqual(waiting);
  expect(standing(openWindow(waiting, at(600)), at(600)).kind).toBe("pouring");
});

test.each([
  { when: "before the planned pour", now: 10, pourAt: 10 },
  { when: "in the window", now: 41, pourAt: 30 },
  { when: "after it was asked for", now: 55, pourAt: 30 },
])("in, $when, counts from then", ({ now, pourAt }) => {
  const run = pouredIn(alone(runOf([stageOf()]), at(now)), at(now));
  expect(run.stages[0]).toMatchObject({ pourAt: at(pourAt), inAt: at(now) });
  expect(run.stages[0]?.plusMinus).toBeUndefined();
  expect(untold(run)[0]).toBe("rest");
});

test("in after it was assumed takes the doubt away, and may come twice", () => {
  const assumed = alone(runOf([stageOf()]), at(72));
  expect(assumed.stages[0]?.plusMinus).toBe(10);
  expect(isLateIn(assumed, at(71))).toBe(true);
  const heard = pouredIn(assumed, at(75));
  expect(heard.stages[0]).toMatchObject({ inAt: at(75) });
  expect(heard.stages[0]).not.toHaveProperty("plusMinus");
  expect(isLateIn(heard, at(76))).toBe(false);
  expect(pouredIn(heard, at(75))).toEqual(heard);
});

test("in within the window, or at the very instant it is assumed, is not late", () => {
  const run = runOf([stageOf()]);
  expect(isLateIn(run, at(500))).toBe(false);
  expect(isLateIn(alone(run, at(70)), at(70))).toBe(false);
});

test("out moves to the next bath, whose pour has been said", () => {
  const run = pouredOut(pouredIn(three(), at(40)), at(233));
  expect(run.stages[0]).toMatchObject({ outAt: at(233) });
  expect(run.stages[0]).not.toHaveProperty("outByClock");
  expect(run.current).toBe(1);
  expect(standing(run, at(233)).kind).toBe("pouring");
  expect(untold(run)).not.toContain("pour");
});

test("out of the last bath ends the run, as heard", () => {
  const run = pouredOut(pouredIn(runOf([stageOf()]), at(40)), at(235));
  expect(run).toMatchObject({ endedAt: at(235), ending: "done" });
  expect(awaitsEnd(run, at(236))).toBe(false);
});

test("out after the clock had moved on corrects the bath before and pours now", () => {
  const moved = alone(pouredIn(three(), at(40)), at(240));
  expect(moved.current).toBe(1);
  expect(awaitsOut(moved)).toBe(true);
  const confirmed = confirmOut(moved, at(243));
  expect(confirmed.stages[0]).toMatchObject({ outAt: at(243) });
  expect(confirmed.stages[0]).not.toHaveProperty("outByClock");
  expect(confirmed.stages[1]).toMatchObject({ pourAt: at(243) });
  expect(awaitsOut(confirmed)).toBe(false);
  expect(confirmOut(confirmed, at(250))).toBe(confirmed);
});

test("out is no news where the bath before was heard out, or is the first", () => {
  expect(awaitsOut(three())).toBe(false);
  expect(awaitsOut(pouredOut(pouredIn(three(), at(40)), at(233)))).toBe(false);
});

test("a skipped bath between does not hide the one the clock ended", () => {
  const moved = alone(pouredIn(three(), at(40)), at(240));
  const skipped = skipStage(moved, 1, at(241));
  expect(awaitsOut(skipped)).toBe(true);
  expect(confirmOut(skipped, at(244)).stages[0]?.outAt).toBe(at(244));
});

test("out within five minutes after the clock ended a run confirms its end", () => {
  const ended = alone(pouredIn(runOf([stageOf()]), at(40)), at(400));
  expect(ended).toMatchObject({ ending: "by the clock", endedAt: at(235) });
  expect(awaitsEnd(ended, at(535))).toBe(true);
  expect(awaitsEnd(ended, at(536))).toBe(false);
  const confirmed = confirmEnd(ended, at(238));
  expect(confirmed).toMatchObject({ ending: "done", endedAt: at(238) });
  expect(confirmed.stages[0]).toMatchObject({ outAt: at(238) });
  expect(confirmed.stages[0]).not.toHaveProperty("outByClock");
  expect(awaitsEnd(confirmed, at(239))).toBe(false);
});

test("the end is confirmed for the last bath that was not skipped", () => {
  const skipped = skipStage(three(), 2, at(10));
  const ended = alone(skipped, at(5000));
  const confirmed = confirmEnd(ended, at(480));
  expect(confirmed.stages[1]?.outAt).toBe(at(480));
  expect(confirmed.stages[2]?.outAt).toBeUndefined();
});

test.each([
  { what: "the bath that is due", now: 10, index: 0, current: 1, pourAt: 30 },
  { what: "the bath being poured", now: 35, index: 0, current: 1, pourAt: 35 },
])("skipping $what hands its pour on", ({ now, index, current, pourAt }) => {
  const run = skipStage(alone(three(), at(now)), index, at(now));
  expect(run).toMatchObject({ current });
  expect(run.stages[current]?.pourAt).toBe(at(pourAt));
  expect(run.stages[0]).toMatchObject({ skipped: true });
  expect(run.stages[0]?.inAt).toBeUndefined();
});

test("a later bath is skipped without moving the run", () => {
  const run = skipStage(pouredIn(three(), at(40)), 1, at(100));
  expect(run.current).toBe(0);
  expect(pouredOut(run, at(233)).current).toBe(2);
});

test("skipping what waits for ready goes on waiting", () => {
  const run = skipStage(putOff(three()), 0, at(10));
  expect(standing(run, at(500))).toMatchObject({ kind: "planned", pourAt: undefined });
});

test("skipping the last bath ends the run", () => {
  expect(skipStage(runOf([stageOf()]), 0, at(35))).toMatchObject({
    endedAt: at(35),
    ending: "done",
  });
});

test("words to a run that is over change nothing", () => {
  const over = pouredOut(pouredIn(runOf([stageOf()]), at(40)), at(235));
  expect(pouredIn(over, at(300))).toBe(over);
  expect(pouredOut(over, at(300))).toBe(over);
});
