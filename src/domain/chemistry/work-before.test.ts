import { expect, test } from "vitest";
import { benchWith } from "../../../test/support/runs.ts";
import type { ReuseRule } from "../process/sheet.ts";
import { correctCount } from "../session/count-film.ts";
import { millilitres, seconds, units } from "../units/quantity.ts";
import type { Bottle } from "./bottle.ts";
import { reuseTime } from "./reuse-time.ts";
import { tanksAfterCount, tanksDone, workBefore } from "./work-before.ts";

// Invented figures.
const origin = { kind: "invented" as const };
const bottle = (change: Partial<Bottle>): Bottle => ({
  id: "acorn",
  name: "Acorn",
  mark: "square",
  bath: "developer",
  volume: millilitres(1000),
  mixedOn: "2026-11-28",
  by: "Ines",
  used: units(0),
  ...change,
});
const perTank: ReuseRule = { kind: "seconds", seconds: seconds(15), per: "batch", origin };

test.each([
  { what: "nothing done", change: {}, tanks: 0, assumed: false },
  { what: "tanks were counted", change: { used: units(4), batches: 2 }, tanks: 2, assumed: false },
  { what: "only film is known", change: { used: units(4) }, tanks: 4, assumed: true },
  { what: "part of a roll", change: { used: units(2.25) }, tanks: 3, assumed: true },
])("$what: $tanks tanks", ({ change, tanks, assumed }) => {
  expect(tanksDone(bottle(change))).toEqual({ tanks, assumed });
});

test("a rule per tank takes one tank for each roll where tanks were not counted, and says so", () => {
  const used = reuseTime(seconds(195), perTank, workBefore(bottle({ used: units(4) }), undefined));
  expect(used.time).toBe(255);
  expect(used.how).toContain("tanks not counted: one for each roll, the longer time");
});

test.each([
  { from: { used: units(2), batches: 1 }, to: 5, tanks: 4 },
  { from: { used: units(4), batches: 4 }, to: 2, tanks: 2 },
  { from: { used: units(4), batches: 1 }, to: 2, tanks: 1 },
])("a count set by hand to $to leaves $tanks tanks, not counted", ({ from, to, tanks }) => {
  expect(tanksAfterCount(bottle(from), to)).toEqual({ batches: tanks, batchesAssumed: true });
  const bench = { ...benchWith(), bottles: { acorn: bottle(from) } };
  expect(correctCount(bench, undefined, "acorn", units(to)).bottles.acorn).toMatchObject({
    used: to,
    batches: tanks,
  });
});

test("a count that is only confirmed leaves what is known of tanks", () => {
  expect(tanksAfterCount(bottle({ used: units(4), batches: 2 }), 4)).toEqual({ batches: 2 });
  expect(tanksAfterCount(bottle({ used: units(4), batches: 2 }), 0)).toEqual({ batches: 0 });
});

const table = (means: "done" | "this"): ReuseRule => ({
  kind: "table",
  means,
  origin,
  rows: [1, 2, 3, 4].map((at) => ({ at, time: seconds(195 + 10 * at) })),
});

test.each([
  { means: "this" as const, done: 3, load: 1, beyond: false },
  { means: "this" as const, done: 3, load: 2, beyond: true },
  { means: "this" as const, done: 0, load: 4, beyond: false },
  { means: "this" as const, done: 0, load: 5, beyond: true },
  // The fifth roll has four done before it, and row 4 is for that.
  { means: "done" as const, done: 3, load: 2, beyond: false },
  { means: "done" as const, done: 3, load: 3, beyond: true },
  { means: "done" as const, done: 0, load: 6, beyond: true },
])("a table of $means to row 4, $done done, $load in the tank: beyond is $beyond", (row) => {
  const before = workBefore(bottle({ used: units(row.done) }), undefined, [], row.load);
  expect(reuseTime(seconds(195), table(row.means), before).beyond).toBe(row.beyond);
});
