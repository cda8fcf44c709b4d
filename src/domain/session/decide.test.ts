import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../../test/support/arbitrary-run.ts";
import { at, benchWith, evening, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import type { Bottle } from "../chemistry/bottle.ts";
import { allCues } from "../timing/cues.ts";
import { type Instant, instant, later, millilitres, seconds, units } from "../units/quantity.ts";
import { overStage } from "./advance.ts";
import type { Bench } from "./bench.ts";
import { decide, type Happening, nextCue, nextDue } from "./decide.ts";
import { pouredIn } from "./hear.ts";
import { isLive, type Run } from "./run.ts";

/** A happening without its lateness, which alone may depend on when one looked. */
const bare = ({ run, event }: Happening) => ({ run, event });

/** Looks at the bench at each of these instants, in order. */
function drive(bench: Bench, moments: readonly Instant[]) {
  let current = bench;
  const happenings: Happening[] = [];
  for (const moment of moments) {
    const step = decide(current, moment);
    current = step.bench;
    happenings.push(...step.happenings);
  }
  return { bench: current, happenings };
}

/** Looks exactly when something is due, as the scheduler does. */
function driveWhenDue(bench: Bench, until: Instant) {
  let current = bench;
  const happenings: Happening[] = [];
  for (;;) {
    const due = nextDue(current);
    if (due === undefined || due > until) return { bench: current, happenings };
    const step = decide(current, due);
    current = step.bench;
    happenings.push(...step.happenings);
  }
}

const end = at(20_000);

test("looking often, seldom or exactly when something is due tells the same, in the same order", () => {
  const offsets = fc.array(fc.integer({ min: 0, max: 20_000_000 }), { maxLength: 40 });
  const same = fc.property(arbitraryRun, offsets, (run, moments) => {
    const bench = benchWith(run);
    const once = drive(bench, [end]);
    const some = moments.toSorted((a, b) => a - b).map((ms) => instant(evening + ms));
    for (const other of [drive(bench, [...some, end]), driveWhenDue(bench, end)]) {
      expect(other.happenings.map(bare)).toEqual(once.happenings.map(bare));
      expect(other.bench).toEqual(once.bench);
    }
  });
  fc.assert(same);
});

test("the same with a word said on the way", () => {
  const words = fc.integer({ min: 30_000, max: 400_000 });
  const same = fc.property(arbitraryRun, words, fc.array(words), (run, said, moments) => {
    const heard = instant(evening + said);
    const before = (bench: Bench, looks: readonly Instant[]) => drive(bench, [...looks, heard]);
    const looks = moments
      .filter((ms) => ms <= said)
      .toSorted((a, b) => a - b)
      .map((ms) => instant(evening + ms));
    const [one, other] = [before(benchWith(run), []), before(benchWith(run), looks)];
    const say = (bench: Bench): Bench => {
      const now = bench.runs[run.id];
      return now === undefined || !isLive(now) ? bench : benchWith(pouredIn(now, heard));
    };
    expect(decide(say(one.bench), end)).toEqual(decide(say(other.bench), end));
  });
  fc.assert(same);
});

test("what nobody answers is told in full: every cue of every bath, once", () => {
  const full = fc.property(arbitraryRun, (run) => {
    const { happenings } = decide(benchWith(run), end);
    const told = happenings.flatMap(({ event }) => (event.kind === "cues" ? event.cues : []));
    expect(told).toEqual(allCues(run, overStage));
  });
  fc.assert(full);
});

test("happenings stand in order of time, and none lies ahead", () => {
  const ordered = fc.property(arbitraryRun, fc.integer({ min: 0, max: 3_000_000 }), (run, ms) => {
    const now = instant(evening + ms);
    let before = Number.NEGATIVE_INFINITY;
    for (const { event, late } of decide(benchWith(run), now).happenings) {
      expect(event.at).toBeGreaterThanOrEqual(before);
      expect(event.at).toBeLessThanOrEqual(now);
      expect(late).toBeCloseTo((now - event.at) / 1000, 9);
      before = event.at;
    }
  });
  fc.assert(ordered);
});

test("a run nobody speaks to ends by the clock, with every bath's times taken from it", () => {
  const ends = fc.property(arbitraryRun, (run) => {
    const ended = decide(benchWith(run), end).bench.runs[run.id];
    expect(ended).toMatchObject({ ending: "by the clock" });
    for (const stage of ended?.stages ?? []) {
      if (stage.skipped === true) continue;
      expect(stage.outByClock).toBe(true);
      expect(stage.plusMinus).toBe(run.window / 2);
      expect(stage.inAt).toBe(later(stage.pourAt ?? evening, run.window / 2));
      expect(stage.outAt).toBeGreaterThan(stage.inAt ?? end);
    }
    expect(nextDue(benchWith(ended ?? run))).toBeUndefined();
  });
  fc.assert(ends);
});

test("a minimum is never cut short when its start is only assumed", () => {
  const kept = fc.property(arbitraryRun, (run) => {
    for (const stage of decide(benchWith(run), end).bench.runs[run.id]?.stages ?? []) {
      if (stage.skipped === true || stage.outAt === undefined) continue;
      // Even if the tank was full only when the window closed.
      const latest = later(stage.pourAt ?? evening, run.window);
      const least = (stage.outAt - (stage.sense === "exact" ? (stage.inAt ?? 0) : latest)) / 1000;
      expect(least).toBeGreaterThanOrEqual(stage.time - 1e-6);
    }
  });
  fc.assert(kept);
});

test("no in: asked once when the window closes, assumed after a second window, give or take half", () => {
  const { bench, happenings } = decide(benchWith(runOf([stageOf()])), at(30 + 41));
  const told = happenings.map(({ event }) => [
    event.kind === "cues" ? event.cues.map(({ kind }) => kind).join() : event.kind,
    (event.at - at(30)) / 1000,
  ]);
  expect(told).toEqual([
    ["pour", 0],
    ["agitate", 10],
    ["ask-in", 20],
    ["rest", 40],
    ["assumed-in", 40],
  ]);
  expect(bench.runs["run-1"]?.stages[0]).toMatchObject({ inAt: at(40), plusMinus: 10 });
});

test("nothing is due before its time, not by a millisecond", () => {
  const bench = benchWith(runOf([stageOf()]));
  expect(nextDue(bench)).toBe(at(30));
  expect(decide(bench, instant(at(30) - 1)).happenings).toEqual([]);
  expect(decide(bench, instant(at(30) - 1)).bench).toBe(bench);
  expect(decide(bench, at(30)).happenings).toHaveLength(1);
});

test("in the dark nothing is told; with the light on everything is, with how late it is", () => {
  const bench = benchWith(runOf([stageOf(), washOf()]));
  const dark: Bench = { ...bench, mode: "dark" };
  expect(nextDue(dark)).toBeUndefined();
  expect(nextCue(dark)).toBeUndefined();
  expect(nextCue(bench)).toBe(at(30));
  expect(decide(dark, end)).toEqual({ bench: dark, happenings: [] });
  const lit = decide({ ...decide(dark, at(100)).bench, mode: "bench" }, at(100));
  expect(lit).toEqual(decide(bench, at(100)));
  expect(lit.happenings[0]?.late).toBe(70);
});

test("several runs tell in order of time, whichever was begun first", () => {
  const north = runOf([stageOf(), washOf()]);
  const south: Run = { ...runOf([stageOf()], { lead: 77 }), id: "run-2", tank: "South" };
  const alone = [north, south].flatMap((run) => decide(benchWith(run), end).happenings);
  const together = decide(benchWith(north, south), end).happenings;
  const key = ({ run, event }: Happening) => `${event.at} ${run.id} ${event.kind}`;
  expect(together.map(key).toSorted()).toEqual(alone.map(key).toSorted());
  const times = together.map(({ event }) => event.at);
  expect(times).toEqual(times.toSorted((a, b) => a - b));
  expect(new Set(together.map(({ run }) => run.tank))).toEqual(new Set(["North", "South"]));
  expect(decide(benchWith(south, north), end).happenings.map(key).toSorted()).toEqual(
    together.map(key).toSorted(),
  );
});

test("an ended run is left alone", () => {
  const ended: Run = { ...runOf([stageOf()]), endedAt: at(10), ending: "stopped" };
  expect(decide(benchWith(ended), end)).toEqual({ bench: benchWith(ended), happenings: [] });
});

test("film assumed to be in counts for its bottle, and only then", () => {
  const bottle: Bottle = {
    id: "bottle-1",
    name: "Acorn",
    mark: "square",
    bath: "developer",
    volume: millilitres(1000),
    mixedOn: "2026-11-28",
    by: "Ines",
    used: units(2),
  };
  const run = runOf([stageOf({ bottle: "bottle-1" })], { film: [{ format: "120", count: 3 }] });
  const bench = { ...benchWith(run), bottles: { "bottle-1": bottle } };
  expect(decide(bench, at(69)).bench.bottles["bottle-1"]?.used).toBe(2);
  expect(decide(bench, at(70)).bench.bottles["bottle-1"]?.used).toBe(5);
  expect(decide(bench, end).bench.bottles["bottle-1"]?.used).toBe(5);
});

test("a bath shorter than the patience for in ends by its time all the same", () => {
  const short = runOf([stageOf({ time: seconds(15) })], { window: seconds(60) });
  const { bench } = decide(benchWith(short), end);
  expect(bench.runs["run-1"]).toMatchObject({ ending: "by the clock", endedAt: at(30 + 30 + 15) });
});
