import fc from "fast-check";
import * as mathjs from "mathjs";
import { describe, expect, test } from "vitest";
import { timeTables } from "../../data/time-temperature.ts";
import { told } from "../origin.ts";
import {
  type Celsius,
  celsius,
  type Instant,
  instant,
  later,
  type Seconds,
  seconds,
} from "../units/quantity.ts";
import { type DriftStage, driftOf, driftSpread, explainDrift } from "./drift.ts";
import type { TimeLaw } from "./time-law.ts";

const start = instant(1_800_000_000_000);
const at = (s: number): Instant => later(start, s);
const reading = (s: number, temperature: number) => ({
  at: at(s),
  temperature: celsius(temperature),
});
const stageOf = (change: Partial<DriftStage> = {}): DriftStage => ({
  start,
  time: seconds(195),
  aim: celsius(37.8),
  drain: seconds(10),
  ...change,
});
const q10 = (value: number): TimeLaw => ({ kind: "q10", q10: value, origin: told });

function drifted(...given: Parameters<typeof driftOf>) {
  const drift = driftOf(...given);
  if (!drift.ok) throw new Error(explainDrift(drift.error));
  return drift.value;
}

test("a degree cold all the way takes the time of its rate: rate integral (derived)", () => {
  const drift = drifted(stageOf(), q10(3), [reading(60, 36.8)], at(60));
  const factor = 3 ** 0.1;
  expect(drift.time).toBeCloseTo(195 * factor, 9);
  expect(drift.change).toBeCloseTo(195 * (factor - 1), 9);
  expect(drift.error).toBeCloseTo(195 / factor - 195, 9);
  expect(drift.percent).toBeCloseTo(100 / factor - 100, 9);
  expect(drift.done).toBeCloseTo(60 / factor, 9);
  expect(drift.worst).toBeCloseTo(-1, 9);
  expect(drift.overdone).toBe(false);
  expect((drift.pourOut - start) / 1000).toBeCloseTo(drift.time - 10, 2);
});

test("without readings, and at a constant set point, nothing changes", () => {
  const constant = fc.property(
    fc.array(fc.integer({ min: 0, max: 300 }), { maxLength: 20 }),
    fc.integer({ min: 0, max: 300 }),
    fc.double({ min: 1, max: 6, noNaN: true }),
    (seconds, more, factor) => {
      const now = at(Math.max(0, ...seconds) + more);
      const readings = seconds.map((s) => reading(s, 37.8));
      const drift = drifted(stageOf(), q10(factor), readings, now);
      expect(drift.change).toBeCloseTo(0, 9);
      expect(drift.error).toBeCloseTo(Math.max(0, (now - start) / 1000 - 195), 6);
    },
  );
  fc.assert(constant);
});

test("a late reading takes its place: the order of telling does not matter", () => {
  const told1 = [reading(30, 37.8), reading(120, 37), reading(60, 37.6)];
  const told2 = [reading(30, 37.8), reading(60, 37.6), reading(120, 37)];
  expect(drifted(stageOf(), q10(3), told1, at(130))).toEqual(
    drifted(stageOf(), q10(3), told2, at(130)),
  );
});

test("of two readings at one instant the later told stands", () => {
  const twice = [reading(30, 27.8), reading(30, 37.8)];
  expect(drifted(stageOf(), q10(3), twice, at(40)).change).toBeCloseTo(0, 9);
});

test("too warm for too long: out as soon as it can be, never in the past", () => {
  const hot = drifted(stageOf(), q10(4), [reading(0, 40)], at(170));
  expect(hot.overdone).toBe(true);
  expect(hot.pourOut).toBe(at(170));
  expect(hot.end).toBe(at(180));
  // Once pouring out has begun the plan stays as it is.
  const pouring = drifted(stageOf(), q10(4), [reading(0, 40)], at(190));
  expect(pouring.change).toBe(0);
});

test("out already: only the size of the error is left", () => {
  const stage = stageOf({ out: at(195) });
  const drift = drifted(stage, q10(3), [reading(100, 36.8)], at(900));
  expect(drift.error).toBeCloseTo(195 / 3 ** 0.1 - 195, 9);
  expect(drift.done).toBeCloseTo(195 / 3 ** 0.1, 9);
});

test("nothing known: both ends of the published spread, F-32 rows (derived)", () => {
  const spread = driftSpread(stageOf(), [reading(0, 36.8)], at(0));
  expect(spread.ok && spread.value.slow.time).toBeCloseTo(195 * 1.4 ** 0.1, 9);
  expect(spread.ok && spread.value.fast.time).toBeCloseTo(195 * 2.9 ** 0.1, 9);
});

describe("drift that averages to the aim", () => {
  /** ln(Q10) / 10 times the departure. */
  const bound = (factor: number, departure: number): number =>
    Math.cosh((departure * Math.log(factor)) / 10) - 1;

  test("0.5 °C up and down at the fastest published factor of 4 (read-secondary) costs 0.3 % at most", () => {
    expect(bound(4, 0.5)).toBeLessThan(0.003);
    const ramp = [reading(0, 38.3), reading(195, 37.3)];
    const drift = drifted(stageOf(), q10(4), ramp, at(195));
    // A tenth of a percent for the straight ramp: sinh(ad) / (ad) - 1.
    const ad = 0.5 * (Math.log(4) / 10);
    expect(drift.percent / 100).toBeCloseTo(Math.sinh(ad) / ad - 1, 9);
    const constant = drifted(stageOf(), q10(4), [reading(0, 38.3)], at(0));
    expect(Math.abs(drift.percent)).toBeLessThan(constant.percent / 80);
  });

  test("the error is never negative and never above cosh(ad) - 1", () => {
    // A zigzag through the whole bath, mirrored in time about the aim: its mean is the aim.
    const half = fc.array(fc.double({ min: -3, max: 3, noNaN: true }), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(half, fc.double({ min: 1, max: 6, noNaN: true }), (offs, factor) => {
        const both = [...offs, ...offs.toReversed().map((off) => -off)];
        const step = 195 / (both.length - 1);
        const readings = both.map((off, i) =>
          reading(Math.round(i * step * 1e6) / 1e6, 37.8 + off),
        );
        const drift = drifted(stageOf(), q10(factor), readings, at(195));
        const most = bound(factor, Math.max(...offs.map(Math.abs)));
        // Instants are whole numbers of double precision, not of milliseconds: 1e-6 is rounding.
        expect(drift.percent / 100).toBeGreaterThanOrEqual(-1e-6);
        expect(drift.percent / 100).toBeLessThanOrEqual(most + 1e-6);
      }),
    );
  });

  test("a table that bends at the aim keeps half the difference of its slopes", () => {
    // Per °C: 0.2 below 22 °C, 0.05 above.
    const rows = [20, 22, 24].map((t) => ({
      at: celsius(t),
      time: seconds(600 * Math.exp(t < 22 ? 0.2 * (22 - t) : -0.05 * (t - 22))),
    }));
    const bent: TimeLaw = { kind: "table", rows, origin: told };
    const stage = stageOf({ time: seconds(600), aim: celsius(22) });
    const ramp = [reading(0, 21.8), reading(600, 22.2)];
    const { percent } = drifted(stage, bent, ramp, at(600));
    // Mean of 0.05 × 0.1 and -0.2 × 0.1, over half the bath each.
    expect(percent / 100).toBeCloseTo((0.05 * 0.1 - 0.2 * 0.1) / 2, 3);
  });
});

test("a path down through several rows is the path up, backwards", () => {
  const table = timeTables.find(({ id }) => id === "rotary-d76-fine");
  if (table === undefined) throw new Error("no table");
  const doneBy = (s: number, from: number, to: number): number => {
    const stage = stageOf({ time: seconds(600), aim: celsius(22), out: at(s) });
    const both = [reading(0, from), reading(s, from + ((to - from) * s) / 600)];
    const cut = drifted(stage, table.law, both, at(600)).done;
    // The same, with the whole path known and no end on the way.
    const whole = [reading(0, from), reading(600, to)];
    const early = { ...stage, out: undefined, time: seconds(cut), planned: seconds(1000) };
    expect(drifted({ ...early, drain: seconds(0) }, table.law, whole, at(600)).change).toBeLessThan(
      0,
    );
    const { time } = drifted({ ...early, out: at(600) }, table.law, whole, at(600));
    expect(time).toBeCloseTo(s, 6);
    return cut;
  };
  const whole = doneBy(600, 24, 20);
  for (const s of [75, 225, 375, 525]) {
    expect(doneBy(s, 24, 20) + doneBy(600 - s, 20, 24)).toBeCloseTo(whole, 6);
  }
});

type Solver = (
  slope: (t: number, y: readonly number[]) => number[],
  span: readonly [number, number],
  from: readonly number[],
  options: { tol: number; firstStep: number; maxStep: number; maxIter: number },
) => { y: number[][] };
// The library has it, its types do not.
const solveODE = Reflect.get(mathjs, "solveODE") as Solver;

describe("against mathjs solveODE (Dormand-Prince) as a reference library", () => {
  const laws: readonly { name: string; law: TimeLaw; aim: number; rate: (t: number) => number }[] =
    [
      ...[1.4, 2, 2.9, 4].map((factor) => ({
        name: `factor ${factor}`,
        law: q10(factor),
        aim: 37.8,
        rate: (t: number) => factor ** ((t - 37.8) / 10),
      })),
      ...timeTables
        .filter(({ process }) => process === "black-and-white")
        .map(({ id, law }) => ({ name: id, law, aim: 22, rate: tableRate(law, 22) })),
    ];

  const horizon = 400;

  test.each(laws)("$name: random paths, within 0.1 s", ({ law, aim, rate }) => {
    const reach = law.kind === "table" ? 2 : 6;
    const points = fc.array(
      fc.tuple(
        fc.integer({ min: 0, max: horizon }),
        fc.double({ min: -reach, max: reach, noNaN: true }),
      ),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 120, max: horizon }), points, (time, offs) => {
        const path = [...new Map(offs).entries()]
          .map(([s, off]) => [s, aim + off] as const)
          .toSorted(([a], [b]) => a - b);
        const readings = path.map(([s, t]) => reading(s, t));
        // Once out, the right end is told wherever it would have been.
        const stage = stageOf({ time: seconds(time), aim: celsius(aim), out: at(horizon) });
        const drift = drifted(stage, law, readings, at(horizon));
        const done = integrate(rate, path, horizon);
        expect(Math.abs(drift.done - done)).toBeLessThan(0.1);
        expect(Math.abs(drift.error + time - done)).toBeLessThan(0.1);
        const end = integrate(rate, path, drift.time);
        expect(Math.abs(end - time)).toBeLessThan(0.1);
      }),
      { numRuns: 12 },
    );
  });

  // From reading to reading: a solver that strides over the whole path can miss a short swing.
  function integrate(
    rate: (temperature: number) => number,
    path: readonly (readonly [number, number])[],
    until: number,
  ): number {
    const stops = [0, ...path.map(([s]) => s).filter((s) => s > 0 && s < until), until];
    const options = { tol: 1e-6, firstStep: 0.25, maxStep: 10, maxIter: 50_000 };
    return stops.slice(1).reduce((done, stop, index) => {
      const from = stops[index] ?? 0;
      const { y } = solveODE((t) => [rate(along(path, t))], [from, stop], [done], options);
      return y.at(-1)?.[0] ?? Number.NaN;
    }, 0);
  }

  function along(path: readonly (readonly [number, number])[], s: number): number {
    const after = path.findIndex(([t]) => t >= s);
    const [right, left] = [path[after], path[after - 1]];
    if (right === undefined) return path.at(-1)?.[1] ?? Number.NaN;
    if (left === undefined) return right[1];
    return left[1] + ((right[1] - left[1]) * (s - left[0])) / (right[0] - left[0]);
  }

  function tableRate(law: Extract<TimeLaw, { kind: "table" }>, aim: number): (t: number) => number {
    const rows = law.rows.map((row) => [row.at, Math.log(row.time)] as const);
    return (t) => Math.exp(along(rows, aim) - along(rows, t));
  }
});

const temperatures = fc.array(
  fc.tuple(fc.integer({ min: 0, max: 180 }), fc.double({ min: 33, max: 42, noNaN: true })),
  { minLength: 1, maxLength: 20 },
);

test("a warmer reading never lengthens the bath", () => {
  fc.assert(
    fc.property(
      temperatures,
      fc.nat(19),
      fc.double({ min: 0, max: 3, noNaN: true }),
      fc.integer({ min: 180, max: 300 }),
      (all, which, more, now) => {
        const readings = all.map(([s, t]) => reading(s, t));
        const warmer = readings.map((one, i) =>
          i === which % readings.length
            ? { ...one, temperature: celsius(one.temperature + more) }
            : one,
        );
        const before = drifted(stageOf(), q10(3), readings, at(now)).time;
        expect(drifted(stageOf(), q10(3), warmer, at(now)).time).toBeLessThanOrEqual(before + 1e-9);
      },
    ),
  );
});

test("re-planning never moves a pour-out into the past", () => {
  fc.assert(
    fc.property(
      temperatures,
      fc.integer({ min: 180, max: 400 }),
      fc.integer({ min: 60, max: 400 }),
      (all, now, planned) => {
        const readings = all.map(([s, t]) => reading(s, t));
        const stage = stageOf({ planned: seconds(planned) });
        const drift = drifted(stage, q10(3), readings, at(now));
        const stays = Math.abs(drift.change) < 1e-9;
        expect(stays || drift.pourOut >= at(now) - 1e-3).toBe(true);
      },
    ),
  );
});

test("two hundred readings are planned again without a step", () => {
  const many = Array.from({ length: 200 }, (_, i) => reading(i, 37.8 + Math.sin(i)));
  expect(
    Number.isFinite(drifted(stageOf({ time: seconds(600) }), q10(3), many, at(200)).time),
  ).toBe(true);
});

test.each([
  { name: "before the pour", readings: [reading(-5, 37.8)], says: "5 s before this bath was in" },
  { name: "in the future", readings: [reading(101, 37.8)], says: "1 s from now" },
  {
    name: "after it was out",
    out: 50,
    readings: [reading(60, 37.8)],
    says: "10 s after this bath was out",
  },
  {
    name: "boiling",
    readings: [{ at: at(1), temperature: 101 as Celsius }],
    says: "from 0 to 100 °C",
  },
  {
    name: "no number",
    readings: [{ at: at(1), temperature: Number.NaN as Celsius }],
    says: "I need",
  },
  {
    name: "no instant",
    readings: [{ at: Number.NaN as Instant, temperature: celsius(38) }],
    says: "say when",
  },
  {
    name: "too far for a coefficient",
    readings: [reading(1, 48)],
    says: "from 27.8 °C to 47.8 °C",
  },
  {
    name: "no time",
    stage: { time: seconds(0) },
    readings: [],
    says: "I need the developer's time",
  },
  { name: "NaN planned", stage: { planned: Number.NaN as Seconds }, readings: [], says: "I need" },
  {
    name: "drain longer than the bath",
    stage: { drain: seconds(195) },
    readings: [],
    says: "shorter than",
  },
])("refused: $name", ({ readings, stage, out, says }) => {
  const given = stageOf({ ...stage, ...(out === undefined ? {} : { out: at(out) }) });
  const drift = driftOf(given, q10(3), readings, at(100));
  expect(drift.ok ? "" : explainDrift(drift.error)).toContain(says);
  const spread = driftSpread(given, readings, at(100));
  expect(spread.ok).toBe(false);
});
