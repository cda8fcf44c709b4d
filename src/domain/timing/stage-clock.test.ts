import fc from "fast-check";
import { expect, test } from "vitest";
import { at, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { seconds as sec, secondsBetween } from "../units/quantity.ts";
import { beats, FETCH_LEAD, layOut, stageClock } from "./stage-clock.ts";

const SS0514 = "SS0514 Basic Color Photography, p. 2-13";
const NAV = "NAVEDTRA 14209, Photography (Basic), small-tank steps 3-6";
const window = sec(20);

test.each([
  {
    source: `${SS0514}, para. b(2) (read): the last 10 s of a step are for draining`,
    stage: stageOf({ inAt: at(12) }),
    start: 12,
    pourOut: 12 + 185,
    end: 12 + 195,
  },
  {
    source: `${NAV} (read): the timer starts when the tank is full, pour out with 10 s left`,
    stage: stageOf({ inAt: at(15), time: sec(600) }),
    start: 15,
    pourOut: 15 + 590,
    end: 15 + 600,
  },
  {
    source: "our own rule: not heard, an exact bath counts from the middle of the window",
    stage: stageOf(),
    start: 10,
    pourOut: 195,
    end: 205,
  },
  {
    source: "our own rule: not heard, a minimum gets half the window on top",
    stage: washOf(),
    start: 10,
    pourOut: 205,
    end: 215,
  },
  {
    source: "our own rule: an assumed start keeps that margin",
    stage: washOf({ inAt: at(10), plusMinus: sec(10) }),
    start: 10,
    pourOut: 205,
    end: 215,
  },
  {
    source: "our own rule: a start that was heard needs no margin",
    stage: washOf({ inAt: at(17) }),
    start: 17,
    pourOut: 17 + 185,
    end: 17 + 195,
  },
])("$source", ({ stage, start, pourOut, end }) => {
  expect(stageClock(stage, at(0), window)).toEqual({
    pour: at(0),
    start: at(start),
    pourOut: at(pourOut),
    end: at(end),
  });
});

test("the next bottle is fetched 40 s before the end: common practice, no source", () => {
  expect(FETCH_LEAD).toBe(40);
});

test.each([
  {
    source: `${NAV} (read): 30 s, then 5 s every minute`,
    stage: stageOf({
      time: sec(300),
      agitation: { initial: sec(30), every: sec(60), each: sec(5), origin: { kind: "published" } },
    }),
    offsets: [0, 60, 120, 180, 240],
  },
  {
    source: `${SS0514}, para. a(3)-(5) (read): sheet film, four lifts a minute`,
    stage: stageOf({
      time: sec(90),
      agitation: { initial: sec(0), every: sec(15), each: sec(3), origin: { kind: "published" } },
    }),
    offsets: [0, 15, 30, 45, 60, 75],
  },
  {
    source: "own arithmetic: a beat that would reach into the drain is left out",
    stage: stageOf({
      time: sec(194),
      agitation: { initial: sec(30), every: sec(60), each: sec(5), origin: { kind: "invented" } },
    }),
    offsets: [0, 60, 120],
  },
  {
    source: "own arithmetic: one that ends as the drain begins is kept",
    stage: stageOf({
      time: sec(195),
      agitation: { initial: sec(30), every: sec(60), each: sec(5), origin: { kind: "invented" } },
    }),
    offsets: [0, 60, 120, 180],
  },
  {
    source: "own arithmetic: beats of unsaid length stop before the drain too",
    stage: stageOf({
      time: sec(190),
      agitation: { initial: sec(30), every: sec(60), origin: { kind: "invented" } },
    }),
    offsets: [0, 60, 120],
  },
  {
    source: "own arithmetic: only a first agitation",
    stage: stageOf({ agitation: { initial: sec(30), origin: { kind: "invented" } } }),
    offsets: [0],
  },
  { source: "own arithmetic: no agitation at all", stage: washOf(), offsets: [] },
])("beats, $source", ({ stage, offsets }) => {
  expect(beats(stage)).toEqual(offsets);
});

test("beats begin after the first agitation and are over before the drain", () => {
  const length = fc.integer({ min: 0, max: 120 });
  const inside = fc.property(
    fc.integer({ min: 11, max: 1200 }),
    length,
    fc.integer({ min: 1, max: 120 }),
    fc.option(length, { nil: undefined }),
    (time, initial, every, each) => {
      const origin = { kind: "invented" } as const;
      const agitation = {
        initial: sec(initial),
        every: sec(every),
        each: each === undefined ? undefined : sec(each),
        origin,
      };
      const [first, ...later] = beats(stageOf({ time: sec(time), agitation }));
      expect(first).toBe(0);
      for (const offset of later) {
        expect(offset).toBeGreaterThan(initial);
        expect(offset % every).toBe(0);
        expect(offset).toBeLessThan(time - 10);
        expect(offset + (each ?? 0)).toBeLessThanOrEqual(time - 10);
      }
    },
  );
  fc.assert(inside);
});

test("a rack rests after its first movement: SS0514, p. 2-13, para. a(1)-(2) (read)", () => {
  const agitation = {
    initial: sec(4.5),
    rest: sec(10),
    every: sec(10),
    each: sec(2.5),
    origin: { kind: "published" as const, source: "SS0514, p. 2-13 (read)" },
  };
  expect(beats(stageOf({ time: sec(60), agitation }))).toEqual([0, 14.5, 24.5, 34.5, 44.5]);
});

test("a whole run is laid out one bath after the other, half a window for each pour", () => {
  const stages = [stageOf(), washOf({ time: sec(60) }), washOf({ bath: "second wash" })];
  const clocks = layOut(runOf(stages), at(0));
  expect(clocks.map((clock) => clock && secondsBetween(at(0), clock.pour))).toEqual([30, 235, 305]);
  expect(clocks.map((clock) => clock && secondsBetween(at(0), clock.end))).toEqual([235, 305, 510]);
});

test("what is skipped has no clock, and the rest closes up", () => {
  const stages = [stageOf(), washOf({ skipped: true }), washOf({ bath: "second wash" })];
  const clocks = layOut(runOf(stages), at(0));
  expect(clocks[1]).toBeUndefined();
  expect(clocks[2]?.pour).toBe(clocks[0]?.end);
});

test("what really happened stands in the layout in the place of the plan", () => {
  const stages = [
    stageOf({ pourAt: at(0), inAt: at(14), outAt: at(222) }),
    washOf({ pourAt: at(222), inAt: at(240) }),
    washOf({ bath: "second wash" }),
  ];
  const clocks = layOut({ ...runOf(stages, { current: 1 }), stages }, at(0));
  expect(clocks[0]?.end).toBe(at(14 + 195));
  expect(clocks[1]).toMatchObject({ pour: at(222), start: at(240), end: at(435) });
  expect(clocks[2]?.pour).toBe(at(435));
});

test("a bath that was put off is laid out from now on, not from the past", () => {
  const first = stageOf({ pourAt: at(0), inAt: at(14), outAt: at(222) });
  const stages = [first, washOf(), washOf({ bath: "second wash" })];
  const clocks = layOut({ ...runOf(stages, { current: 1 }), stages }, at(900));
  expect(clocks[1]?.pour).toBe(at(900));
  expect(clocks[2]?.pour).toBe(clocks[1]?.end);
  // Nor before film has left the bath before it.
  expect(layOut({ ...runOf(stages, { current: 1 }), stages }, at(100))[1]?.pour).toBe(at(222));
});
