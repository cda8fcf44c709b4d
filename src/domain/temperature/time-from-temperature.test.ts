import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { timeTables } from "../../data/time-temperature.ts";
import { told } from "../origin.ts";
import { minutes } from "../units/conversions.ts";
import { type Celsius, celsius, type Seconds, seconds } from "../units/quantity.ts";
import { PUBLISHED_SPREAD } from "./rate.ts";
import { explainTime, tableTime, timeAt } from "./time-from-temperature.ts";
import { checkLaw, explainLaw, q10FromK7, type TimeLaw } from "./time-law.ts";

const F32 = "F-32, T-MAX 100 and 400 Professional Films, rotary-tube table, rolls";
/** Minutes at 20, 21, 22 and 24 °C as printed, and the factor for 10 °C between the ends. */
const rows = [
  { id: "T-01", table: "rotary-concentrate-5-fine", printed: [6.5, 6.5, 6, 5.5], q10: 1.52 },
  { id: "T-02", table: "rotary-replenished-fine", printed: [7, 6.5, 6, 5], q10: 2.32 },
  { id: "T-03", table: "rotary-ascorbate-135-fine", printed: [6, 5.25, 4.75, 4], q10: 2.76 },
  { id: "T-04", table: "rotary-d76-fine", printed: [6.5, 6, 5.5, 5], q10: 1.93 },
  { id: "T-05", table: "rotary-concentrate-5-fast", printed: [6.5, 6.5, 6, 5.5], q10: 1.52 },
  { id: "T-06", table: "rotary-ascorbate-2-135-fast", printed: [7.75, 7, 6.5, 5.5], q10: 2.36 },
  { id: "T-07", table: "rotary-ascorbate-2-120-fast", printed: [7, 6.5, 6, 5.25], q10: 2.05 },
  { id: "T-08", table: "rotary-ascorbate-120-fine", printed: [5.75, 5, 4.5, 3.75], q10: 2.91 },
] as const;
const temperatures = [20, 21, 22, 24] as const;

function lawOf(id: string): Extract<TimeLaw, { kind: "table" }> {
  const table = timeTables.find((one) => one.id === id);
  if (table === undefined) throw new Error(`no table ${id}`);
  return table.law;
}
const lawFrom = (pairs: readonly (readonly [number, number])[]) => ({
  kind: "table" as const,
  rows: pairs.map(([at, time]) => ({ at: celsius(at), time: minutes(time) })),
  origin: told,
});
function minutesAt(law: Extract<TimeLaw, { kind: "table" }>, at: number): number {
  const time = tableTime(law, celsius(at));
  if (!time.ok) throw new Error(time.error.kind);
  return time.value / 60;
}

describe.each(rows)(`$id, $table: ${F32} (read)`, ({ table, printed, q10 }) => {
  const law = lawOf(table);
  const [first, , , last] = printed;

  test.each(temperatures.map((at, index) => ({ at, printed: printed[index] ?? 0 })))(
    "$at °C is $printed min, as printed",
    (row) => {
      expect(minutesAt(law, row.at)).toBeCloseTo(row.printed, 9);
    },
  );

  // Printed to a quarter or half a minute, the ends as much as the rows between them.
  test.each([
    { at: 21, printed: printed[1] },
    { at: 22, printed: printed[2] },
  ])("from the ends alone $at °C lands within 0.3 min of $printed", (row) => {
    const ends = lawFrom([
      [20, first],
      [24, last],
    ]);
    expect(Math.abs(minutesAt(ends, row.at) - row.printed)).toBeLessThanOrEqual(0.3);
  });

  test("one log-linear law passes through all four within the rounding, a quarter minute", () => {
    const shifts = [-0.24, -0.16, -0.08, 0, 0.08, 0.16, 0.24];
    const passes = shifts.some((up) =>
      shifts.some((down) => {
        const ends = lawFrom([
          [20, first + up],
          [24, last + down],
        ]);
        return temperatures.every(
          (at, index) => Math.abs(minutesAt(ends, at) - (printed[index] ?? 0)) <= 0.25,
        );
      }),
    );
    expect(passes).toBe(true);
  });

  test(`from 20 °C the factor ${q10} (derived) gives the time at 24 °C`, () => {
    const answer = timeAt(minutes(first), celsius(20), celsius(24), {
      kind: "q10",
      q10,
      origin: told,
    });
    expect(answer.ok && answer.value.kind === "time" && answer.value.time / 60).toBeCloseTo(
      last,
      1,
    );
    expect(q10).toBeGreaterThan(PUBLISHED_SPREAD.low);
    expect(q10).toBeLessThanOrEqual(PUBLISHED_SPREAD.high + 0.02);
  });
});

test.each([
  { at: 23, printed: 3 },
  { at: 16, printed: 6 },
])(
  "4 min at 20 °C is about $printed at $at °C with a factor of 2.7: a maker's chart (from memory)",
  ({ at, printed }) => {
    const answer = timeAt(minutes(4), celsius(20), celsius(at), {
      kind: "q10",
      q10: 2.7,
      origin: told,
    });
    expect(answer.ok && answer.value.kind === "time" && answer.value.time / 60).toBeCloseTo(
      printed,
      1,
    );
  },
);

test("the coefficient for 7 °C is another for 10: Ives, Airplane Photography, 1920 (read)", () => {
  expect(q10FromK7(2)).toBeCloseTo(2.692, 3);
  const answer = timeAt(seconds(300), celsius(20), celsius(27), {
    kind: "k7",
    k7: 2,
    origin: told,
  });
  expect(answer.ok && answer.value.kind === "time" && answer.value.time).toBeCloseTo(150, 9);
});

test("kit leaflets' 8:00, 3:15 and 2:00 at 30, 38 and 45 °C (from memory) are no default", () => {
  const table = timeTables.find(({ process }) => process === "C-41");
  expect(table).toMatchObject({ trusted: false, law: { origin: { kind: "from memory" } } });
  expect(timeTables.filter(({ trusted }) => trusted)).toHaveLength(8);
  // Not one exponential: 3.1 for 10 °C below 38 °C, 2.0 above.
  expect((480 / 195) ** (10 / 8)).toBeCloseTo(3.1, 1);
  expect((195 / 120) ** (10 / 7)).toBeCloseTo(2.0, 1);
});

test("with nothing known it is a range, and called an estimate: F-32 rows, 1.4 to 2.9 (derived)", () => {
  const warmer = timeAt(seconds(195), celsius(37.8), celsius(38.8), undefined);
  if (!warmer.ok || warmer.value.kind !== "estimate") throw new Error("no estimate");
  expect(warmer.value.from).toBeCloseTo(195 / 2.9 ** 0.1, 9);
  expect(warmer.value.to).toBeCloseTo(195 / 1.4 ** 0.1, 9);
  expect(warmer.value.how).toContain("estimate, 1 °C above the aim");
  const colder = timeAt(seconds(195), celsius(37.8), celsius(36.8), undefined);
  if (!colder.ok || colder.value.kind !== "estimate") throw new Error("no estimate");
  expect(colder.value.from).toBeLessThan(colder.value.to);
});

test("the working names the factor and where it is from", () => {
  const answer = timeAt(seconds(390), celsius(20), celsius(22), lawOf("rotary-d76-fine"));
  expect(answer.ok && answer.value.how).toBe(
    `2 °C above the aim: 6:30 × 0.846; table from 20 °C to 24 °C; published: ${F32}, row "D-76", T-MAX 100 (read)`,
  );
});

test.each<{ name: string; aim?: number; at: number; law?: TimeLaw; says: string }>([
  {
    name: "warmer than the table",
    at: 24.1,
    law: lawOf("rotary-d76-fine"),
    says: "from 20 °C to 24 °C",
  },
  {
    name: "colder than the table",
    at: 19.9,
    law: lawOf("rotary-d76-fine"),
    says: "from 20 °C to 24 °C",
  },
  {
    name: "aim outside the table",
    aim: 18,
    at: 20,
    law: lawOf("rotary-d76-fine"),
    says: "The aim of 18 °C (64.4 °F) is outside the table",
  },
  {
    name: "11 °C from the aim",
    at: 31,
    law: { kind: "q10", q10: 2, origin: told },
    says: "from 10 °C to 30 °C",
  },
  { name: "11 °C from the aim, nothing known", at: 9, says: "from 10 °C to 30 °C" },
  { name: "boiling", at: 101, says: "from 0 to 100 °C" },
  { name: "no number", at: Number.NaN, says: "I need a temperature" },
  { name: "one row", at: 20, law: lawFrom([[20, 5]]), says: "two rows at least" },
  {
    name: "slower when warmer",
    at: 20,
    law: lawFrom([
      [20, 5],
      [24, 6],
    ]),
    says: "5:00 at 20 °C and a longer 6:00 at 24 °C",
  },
  {
    name: "doubled",
    at: 20,
    law: lawFrom([
      [20, 5],
      [20, 6],
    ]),
    says: "two rows for 20 °C",
  },
  {
    name: "a row without time",
    at: 20,
    law: lawFrom([
      [20, 0],
      [24, 6],
    ]),
    says: "a time above zero",
  },
  { name: "factor 0", at: 20, law: { kind: "q10", q10: 0, origin: told }, says: "outside 1 to 6" },
  {
    name: "factor NaN",
    at: 20,
    law: { kind: "k7", k7: Number.NaN, origin: told },
    says: "from 1 to 6",
  },
])("refused: $name", ({ aim = 20, at, law, says }) => {
  const answer = timeAt(seconds(390), celsius(aim), at as Celsius, law);
  expect(answer.ok ? "" : explainTime(answer.error)).toContain(says);
});

test("no time, no rows", () => {
  expect(timeAt(seconds(0), celsius(20), celsius(21), undefined)).toMatchObject({
    error: { kind: "no-time" },
  });
  expect(explainTime({ kind: "no-time", time: 0 })).toContain("I need the developer's time");
  expect(tableTime(lawFrom([]), celsius(20))).toMatchObject({ error: { kind: "too-few-rows" } });
  expect(checkLaw(lawOf("rotary-d76-fine"))).toBeUndefined();
  expect(explainLaw({ kind: "too-few-rows", rows: 1 })).toContain("this has 1");
});

const anyLaw: fc.Arbitrary<TimeLaw | undefined> = fc.oneof(
  fc.constant(undefined),
  fc
    .double({ min: 1, max: 6, noNaN: true })
    .map((q10) => ({ kind: "q10" as const, q10, origin: told })),
  fc.constantFrom(...timeTables.map(({ law }) => law)),
);

test("at the aim nothing changes, and a warmer bath never takes longer", () => {
  const base = fc.double({ min: 30, max: 3600, noNaN: true }).map(seconds);
  const at = fc.double({ min: 20, max: 24, noNaN: true }).map(celsius);
  const ends = (time: Seconds, aim: Celsius, law: TimeLaw | undefined, to: Celsius) => {
    const answer = timeAt(time, aim, to, law);
    if (!answer.ok) return undefined;
    return answer.value.kind === "time"
      ? [answer.value.time]
      : [answer.value.from, answer.value.to];
  };
  fc.assert(
    fc.property(base, at, at, at, anyLaw, (time, aim, one, other, law) => {
      for (const end of ends(time, aim, law, aim) ?? []) expect(end).toBeCloseTo(time, 9);
      const colder = ends(time, aim, law, celsius(Math.min(one, other)));
      const warmer = ends(time, aim, law, celsius(Math.max(one, other)));
      if (colder === undefined || warmer === undefined) return;
      for (const [index, end] of warmer.entries()) {
        expect(end).toBeLessThanOrEqual((colder[index] ?? 0) + 1e-9);
      }
    }),
  );
});

test("whatever numbers come in, none that is not finite comes out", () => {
  const wild = fc.double() as fc.Arbitrary<Celsius & Seconds>;
  fc.assert(
    fc.property(wild, wild, wild, fc.double(), fc.boolean(), (time, aim, at, q10, known) => {
      const law = known ? ({ kind: "q10", q10, origin: told } as const) : undefined;
      const answer = timeAt(time, aim, at, law);
      if (!answer.ok) expect(explainTime(answer.error)).not.toContain("NaN");
      else if (answer.value.kind === "time") expect(Number.isFinite(answer.value.time)).toBe(true);
      else expect(Number.isFinite(answer.value.from + answer.value.to)).toBe(true);
    }),
    { numRuns: 1000 },
  );
});
