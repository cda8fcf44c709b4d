import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../../test/support/arbitrary-run.ts";
import { at, benchWith, evening, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { collisions } from "../timing/stagger.ts";
import { type Instant, later, seconds } from "../units/quantity.ts";
import { leave } from "./advance.ts";
import type { Bench } from "./bench.ts";
import { decide } from "./decide.ts";
import { openWindow, pouredIn, putOff } from "./hear.ts";
import { handsOn, keepApart, placeReady, placeStart, servingOf } from "./keep-apart.ts";
import { rehearse } from "./rehearsal.ts";
import { type Run, withStage } from "./run.ts";

const tank = (name: string, lead = 30, change: Partial<Run> = {}): Run =>
  runOf([stageOf(), washOf()], { id: `run-${name}`, tank: name, lead, ...change });
const north: Run = tank("North");
const south = tank("South");
const pourOf = (bench: Bench, name: string) => bench.runs[`run-${name}`]?.stages[0]?.pourAt;
const withRun = (bench: Bench, run: Run): Bench => ({
  ...bench,
  runs: { ...bench.runs, [run.id]: run },
});

/** Every two spans of one person that meet, over all tanks of a bench. */
const meetings = (bench: Bench, now: Instant) => {
  const hands = handsOn(bench, Object.values(bench.runs), now);
  return hands.flatMap((one, n) => collisions(one, hands.slice(n + 1)));
};

test("one person serves all tanks unless the bench says otherwise", () => {
  expect(servingOf(benchWith())).toBe("one for all");
  expect(servingOf({ ...benchWith(), serving: "one per tank" })).toBe("one per tank");
});

test("a start is put off past the other tank's pour, with a lead of 30 s, or not with two people", () => {
  const { run, found } = placeStart(benchWith(north), south, evening);
  expect(found).toMatchObject({ kind: "delay", delay: 50 });
  expect(run.stages[0]?.pourAt).toBe(at(80));
  const two: Bench = { ...benchWith(north), serving: "one per tank" };
  expect(placeStart(two, south, evening).run).toEqual(south);
});

test("the reason is the last thing that stands in the way", () => {
  const bench = benchWith(north, tank("South", 80));
  const { found } = placeStart(bench, tank("East"), evening);
  expect(found).toMatchObject({ delay: 100, met: { other: { tank: "South", what: "pour" } } });
});

test("of two planned runs the later gives way; one that is wet is never moved", () => {
  const { bench, moved } = keepApart(benchWith(north, tank("South", 40)), evening);
  expect(moved.map(({ run }) => run.tank)).toEqual(["South"]);
  expect([pourOf(bench, "North"), pourOf(bench, "South")]).toEqual([at(30), at(80)]);
  const wet = pouredIn(tank("South", 40), at(5));
  const after = keepApart(benchWith(north, wet), at(5));
  expect(after.moved.map(({ run }) => run.tank)).toEqual(["North"]);
  expect(after.bench.runs["run-South"]).toBe(wet);
});

test("what hands have done binds nobody: ready is not held by the lead before it", () => {
  const alone = (name: string): Run => ({ ...tank(name), stages: tank(name).stages.slice(0, 1) });
  const wet = pouredIn(alone("North"), at(10));
  const now = at(35);
  const opened = openWindow(alone("South"), now);
  expect(placeReady(benchWith(wet), opened, now).found).toMatchObject({ delay: 0 });
});

test("ready is put off for a tank that is wet, and a planned one gives way to it", () => {
  const wet = pouredIn(tank("North"), at(0));
  const now = at(185);
  const held = placeReady(benchWith(wet), openWindow(south, now), now);
  expect(held.found).toMatchObject({ kind: "delay", met: { other: { tank: "North" } } });
  expect(placeReady(benchWith(north), openWindow(south, evening), evening).found).toMatchObject({
    delay: 0,
  });
});

test("a run that waits for ready keeps nobody's hands, and is not moved", () => {
  const waiting = putOff(north);
  const bench = benchWith(waiting, south);
  expect(keepApart(bench, evening).bench).toBe(bench);
  expect(placeStart(bench, tank("East"), evening).found).toMatchObject({ delay: 50 });
});

test("where nothing fits within an hour, it is said and nothing is moved", () => {
  const crowd = Array.from({ length: 70 }, (_, n) => tank(`T${n}`, 30 + n * 50));
  const bench = benchWith(...crowd.map((run) => ({ ...run, stages: run.stages.slice(0, 1) })));
  const late = tank("Late");
  const { run, found } = placeStart(bench, late, evening);
  expect(found.kind).toBe("no-room");
  expect(run).toBe(late);
  const kept = keepApart(withRun(benchWith(north), { ...south, window: seconds(4000) }), evening);
  expect(kept.stuck.map(({ run: one }) => one.tank)).toEqual([]);
});

test("a rehearsal takes up its water as much faster as it runs", () => {
  const made = rehearse(south, 10);
  if (!made.ok) throw new Error(made.error.kind);
  const bench = { ...benchWith(), lead: 20 };
  const [hands] = handsOn(bench, [made.value], evening);
  expect(hands?.busy[0]).toMatchObject({ from: at(1), at: at(3), to: at(5) });
});

const tanks = fc
  .array(arbitraryRun, { minLength: 2, maxLength: 7 })
  .map((runs) =>
    runs.map((run, n): Run => ({ ...run, id: `run-${n}`, tank: `Tank ${n}`, window: seconds(20) })),
  );

test("any runs started one after another leave no collision on the bench", () => {
  const free = fc.property(tanks, fc.integer({ min: 0, max: 60 }), (runs, lead) => {
    let bench: Bench = { ...benchWith(), lead };
    for (const run of runs) {
      const { run: placed, found } = placeStart(bench, run, evening);
      if (found.kind === "no-room") continue;
      bench = withRun(bench, placed);
      expect(meetings(bench, evening)).toEqual([]);
    }
    expect(keepApart(bench, evening).bench).toBe(bench);
  });
  fc.assert(free, { numRuns: 60 });
});

test("whatever is planned, keeping apart moves nothing forward and nothing that is wet", () => {
  const plans = fc.array(fc.nat(400), { minLength: 7, maxLength: 7 });
  const kept = fc.property(tanks, plans, fc.integer({ min: 0, max: 300 }), (runs, leads, into) => {
    const planned = runs.map((run, n) => withStage(run, 0, { pourAt: at(leads[n] ?? 0) }));
    const before = decide(benchWith(...planned), at(into)).bench;
    const { bench, stuck } = keepApart(before, at(into));
    for (const run of Object.values(before.runs)) {
      const was = run.stages[0]?.pourAt ?? 0;
      const is = bench.runs[run.id]?.stages[0]?.pourAt ?? 0;
      expect(is).toBeGreaterThanOrEqual(was);
      if (was <= at(into)) expect(bench.runs[run.id]).toBe(run);
    }
    if (stuck.length === 0) expect(keepApart(bench, at(into)).bench).toBe(bench);
  });
  fc.assert(kept, { numRuns: 60 });
});

test("a bath left early moves what would now meet it", () => {
  const wet = pouredIn(tank("North"), at(0));
  const planned = tank("South", 100);
  const bench = benchWith(leave(wet, at(90), false), planned);
  const { moved } = keepApart(bench, at(90));
  expect(moved).toHaveLength(1);
  expect(later(at(100), 40)).toBe(moved[0]?.run.stages[0]?.pourAt);
});
