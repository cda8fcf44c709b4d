import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../../test/support/arbitrary-run.ts";
import { at, runOf, stageOf, stagesOf, washOf } from "../../../test/support/runs.ts";
import { shippedSheets } from "../../data/sheets.ts";
import { overStage } from "../session/advance.ts";
import { openWindow, pouredIn, putOff, skipStage } from "../session/hear.ts";
import { currentStage, type Run } from "../session/run.ts";
import { instant, later, seconds as sec, secondsBetween } from "../units/quantity.ts";
import { allCues, type Cue, cuesBetween, isChatter, nextStage, stageCues } from "./cues.ts";
import { stageClock } from "./stage-clock.ts";

/** Cues as "seconds after the start of the time: kind", for tables that can be read. */
const told = (cues: readonly Cue[], from = at(0)): readonly string[] =>
  cues.map((cue) => {
    const lasting = cue.for === undefined ? "" : ` ${cue.for}`;
    return `${secondsBetween(from, cue.at)} ${cue.kind}${lasting}`;
  });

/** A run that stands in its first bath, full at half past seven, poured 12 s before. */
const wet = (...stages: Parameters<typeof runOf>[0]): Run =>
  pouredIn(runOf(stages, { lead: -12 }), at(0));

test("small tank: 30 s, then 5 s a minute, out with 10 s left: NAVEDTRA 14209, small-tank steps 3-6 (read)", () => {
  const origin = { kind: "published" } as const;
  const agitation = { initial: sec(30), every: sec(60), each: sec(5), origin };
  const run = wet(stageOf({ time: sec(300), agitation }));
  expect(told(stageCues(run))).toEqual([
    "-12 pour",
    "0 agitate 30",
    "30 rest",
    "60 beat 5",
    "120 beat 5",
    "180 beat 5",
    "240 beat 5",
    "290 pour-out",
  ]);
});

test("developer 3:15, first 30 s continuous, last 10 s drain: Z-131 Table 4-1 and SS0514 p. 2-13 (read); fetch 40 s before: common practice, no source", () => {
  const sheet = shippedSheets.find(({ id }) => id === "colour-negative");
  const stages = stagesOf(sheet?.baths ?? []);
  expect(told(stageCues(wet(...stages)))).toEqual([
    "-12 pour",
    "0 agitate 30",
    "30 rest",
    "60 beat 5",
    "90 beat 5",
    "120 beat 5",
    "150 beat 5",
    "155 fetch",
    "180 beat 5",
    "185 pour-out",
  ]);
});

test("blix is vented at 10 s: common practice, no source", () => {
  const sheet = shippedSheets.find(({ id }) => id === "demo");
  const [, blix] = stagesOf(sheet?.baths ?? []);
  const cues = stageCues(wet(...(blix === undefined ? [] : [blix])));
  expect(told(cues.filter(({ kind }) => kind === "vent"))).toEqual(["10 vent"]);
});

test.each([
  { next: "the last bath", stages: [stageOf()], fetch: [] },
  { next: "a wash", stages: [stageOf(), washOf()], fetch: [] },
  { next: "a bottle", stages: [stageOf(), stageOf({ bath: "blix", kind: "blix" })], fetch: [155] },
  {
    next: "a bottle behind a skipped wash",
    stages: [stageOf(), washOf({ skipped: true }), stageOf({ bath: "blix", kind: "blix" })],
    fetch: [155],
  },
  {
    next: "a bottle, but the first agitation still goes on",
    stages: [stageOf({ time: sec(70) }), stageOf({ bath: "blix", kind: "blix" })],
    fetch: [],
  },
])("fetching before $next", ({ stages, fetch }) => {
  const found = stageCues(wet(...stages)).filter(({ kind }) => kind === "fetch");
  expect(found.map((cue) => secondsBetween(at(0), cue.at))).toEqual(fetch);
});

test("continuous agitation stops for pouring out", () => {
  const origin = { kind: "invented" } as const;
  const run = wet(stageOf({ agitation: { initial: sec(195), origin } }));
  expect(told(stageCues(run))).toEqual(["-12 pour", "0 agitate 185", "185 pour-out"]);
});

test("a first agitation that leaves a rest says when to set the tank down, also without later beats", () => {
  const origin = { kind: "invented" } as const;
  const run = wet(stageOf({ time: sec(90), agitation: { initial: sec(30), origin } }));
  expect(told(stageCues(run))).toEqual(["-12 pour", "0 agitate 30", "30 rest", "80 pour-out"]);
});

test("until the pour is heard it is asked for once, when the window closes", () => {
  const cues = stageCues(runOf([stageOf()], { lead: 0 }));
  expect(told(cues.filter(({ kind }) => kind === "ask-in"))).toEqual(["20 ask-in"]);
  expect(stageCues(wet(stageOf())).some(({ kind }) => kind === "ask-in")).toBe(false);
});

test("a bath shorter than its window is over before anybody could ask", () => {
  const run = runOf([stageOf({ time: sec(11) })], { lead: 0, window: sec(120) });
  expect(stageCues(run).some(({ kind }) => kind === "ask-in")).toBe(false);
});

test("a bath nobody may pour yet, and a run that is over, have no cues", () => {
  expect(stageCues(putOff(runOf([stageOf()])))).toEqual([]);
  expect(stageCues({ ...runOf([stageOf()]), endedAt: at(500) })).toEqual([]);
});

test("what presses most comes first at one instant", () => {
  const origin = { kind: "invented" } as const;
  const agitation = { initial: sec(10), every: sec(60), each: sec(5), origin };
  const cues = stageCues(wet(stageOf({ agitation, vent: sec(10) })));
  expect(told(cues).filter((cue) => cue.startsWith("10 "))).toEqual(["10 vent", "10 rest"]);
});

test("hold silences chatter and nothing that pours, vents or asks", () => {
  const kinds = ["pour", "agitate", "rest", "vent", "beat", "fetch", "pour-out", "ask-in"] as const;
  expect(kinds.filter((kind) => !isChatter(kind))).toEqual(["pour", "vent", "pour-out", "ask-in"]);
});

test("every cue lies inside its stage, and they stand in order of time", () => {
  const inside = fc.property(arbitraryRun, (run) => {
    for (let at = run, guard = 0; guard < 20; guard += 1) {
      const stage = currentStage(at);
      if (stage?.pourAt === undefined) break;
      const clock = stageClock(stage, stage.pourAt, at.window);
      let before = Number.NEGATIVE_INFINITY;
      for (const cue of stageCues(at)) {
        expect(cue.stage).toBe(at.current);
        expect(cue.at).toBeGreaterThanOrEqual(clock.pour);
        expect(cue.at).toBeLessThan(clock.end);
        expect(cue.at).toBeGreaterThanOrEqual(before);
        before = cue.at;
      }
      at = overStage(at);
    }
  });
  fc.assert(inside);
});

test("nothing that keeps hands busy reaches into the drain", () => {
  const clear = fc.property(arbitraryRun, (run) => {
    const stage = currentStage(run);
    if (stage?.pourAt === undefined) return;
    const { pourOut } = stageClock(stage, stage.pourAt, run.window);
    for (const cue of stageCues(run)) {
      if (cue.kind === "agitate" || cue.kind === "beat") {
        expect(later(cue.at, cue.for ?? 0)).toBeLessThanOrEqual(pourOut);
      }
    }
  });
  fc.assert(clear);
});

test("cues of [t0, t2) are those of [t0, t1) and then those of [t1, t2)", () => {
  const offset = fc.integer({ min: -100_000, max: 2_000_000 });
  const joins = fc.property(arbitraryRun, offset, offset, offset, (run, ...offsets) => {
    const [t0 = at(0), t1 = at(0), t2 = at(0)] = offsets
      .toSorted((a, b) => a - b)
      .map((ms) => instant(at(0) + ms));
    expect([...cuesBetween(run, t0, t1), ...cuesBetween(run, t1, t2)]).toEqual(
      cuesBetween(run, t0, t2),
    );
  });
  fc.assert(joins);
});

test("a split on a cue's own instant neither loses nor doubles it", () => {
  const run = wet(stageOf());
  for (const { at: split } of stageCues(run)) {
    const before = cuesBetween(run, at(-20), split);
    const after = cuesBetween(run, split, at(300));
    expect([...before, ...after]).toEqual(stageCues(run));
  }
});

test("hearing in, ready or skip never leaves an untold cue in the past", () => {
  const moment = fc.integer({ min: -60_000, max: 400_000 });
  const ahead = fc.property(arbitraryRun, moment, (run, ms) => {
    const now = instant(at(30) + ms);
    for (const after of [pouredIn(run, now), openWindow(run, now), skipStage(run, 0, now)]) {
      const untold = stageCues(after).filter((cue) => cue.at >= after.cuedUntil);
      for (const cue of untold) expect(cue.at).toBeGreaterThan(now);
    }
  });
  fc.assert(ahead);
});

test("after in is heard the time counts from that moment, whenever it came", () => {
  const counts = fc.property(arbitraryRun, fc.integer({ min: 0, max: 400_000 }), (run, ms) => {
    const now = instant(at(30) + ms);
    const after = pouredIn(run, now);
    const stage = currentStage(after);
    const out = stageCues(after).find(({ kind }) => kind === "pour-out");
    expect(out && secondsBetween(now, out.at)).toBeCloseTo(
      (stage?.time ?? 0) - (stage?.drain ?? 0),
      6,
    );
  });
  fc.assert(counts);
});

test("all cues of a run nobody speaks to are those of its stages, one after the other", () => {
  const run = runOf([stageOf(), washOf(), stageOf({ bath: "blix", kind: "blix" })]);
  const cues = allCues(run, overStage);
  expect(new Set(cues.map(({ stage }) => stage))).toEqual(new Set([0, 1, 2]));
  expect(cues.map(({ at: when }) => when)).toEqual(
    cues.map(({ at: when }) => when).toSorted((a, b) => a - b),
  );
  expect(cues.filter(({ kind }) => kind === "pour")).toHaveLength(3);
  expect(cues.filter(({ kind }) => kind === "pour-out")).toHaveLength(3);
});

test("a skipped bath is nobody's next", () => {
  const run = runOf([stageOf(), washOf({ skipped: true }), washOf({ bath: "second wash" })]);
  expect(nextStage(run, 0)?.index).toBe(2);
  expect(nextStage(run, 2)).toBeUndefined();
});
