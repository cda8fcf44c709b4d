import { expect, test } from "vitest";
import { livedRun } from "../../../test/support/lived-run.ts";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import type { Bench } from "../session/bench.ts";
import type { Run } from "../session/run.ts";
import { touchedBy } from "../session/touched.ts";
import { millilitres, units } from "../units/quantity.ts";
import { seasonOf } from "./season.ts";

const DAY = 86_400;

/** INVENTED: two rolls through one bottle, so many days after 28 November 2026. */
const runAfter = (days: number, id: string, change: Partial<Run> = {}): Run => ({
  ...livedRun(
    runOf([stageOf({ bottle: "acorn" }), washOf()], { film: [{ format: "120", count: 2 }] }),
    {
      off: { 0: 20 },
    },
  ),
  id,
  plannedAt: at(days * DAY),
  ...change,
});

const shelf: Bench["bottles"] = {
  acorn: {
    id: "acorn",
    name: "Acorn",
    mark: "square",
    bath: "developer",
    volume: millilitres(1000),
    mixedOn: "2026-11-01",
    by: "Ines",
    used: units(8),
    price: { amount: 14, currency: "euros" },
  },
};

test("rolls by process, a bottle's cost per roll, deviations by month", () => {
  const bench: Bench = {
    ...benchWith(
      runAfter(0, "run-1"),
      runAfter(5, "run-2", { process: "E-6", film: [{ format: "4x5", count: 4 }] }),
      runAfter(6, "run-3", { rehearsal: { speed: 5 } }),
      runAfter(7, "run-4", { nothingIn: true }),
    ),
    bottles: shelf,
  };
  const season = seasonOf(bench, "2026-10-01", "2026-12-31");
  expect(season).toMatchObject({ runs: 2, rolls: 6, units: 3 });
  expect(season.processes).toEqual([
    { process: "C-41", runs: 1, rolls: 2, units: 2 },
    { process: "E-6", runs: 1, rolls: 4, units: 1 },
  ]);
  // 14 euros over the 8 units it has ever done; 3 of them in these runs.
  expect(season.bottles).toEqual([
    {
      bottle: "Acorn",
      mark: "square",
      bath: "developer",
      units: 3,
      perRoll: { amount: 1.75, currency: "euros" },
      retired: false,
    },
  ]);
  expect(season.months).toEqual([
    { month: "2026-10", runs: 0, known: 0, deviations: 0 },
    { month: "2026-11", runs: 1, known: 1, deviations: 1 },
    { month: "2026-12", runs: 1, known: 1, deviations: 1 },
  ]);
});

test("a run in a file of its own counts the same as at hand", () => {
  const run = runAfter(0, "run-1");
  const { id, title, tank, plannedAt } = run;
  const away: Bench = {
    ...benchWith(),
    bottles: shelf,
    pastRuns: [{ id, title, tank, plannedAt, touched: touchedBy(run) }],
  };
  const here: Bench = { ...benchWith(run), bottles: shelf };
  const days = ["2026-11-01", "2026-11-30"] as const;
  expect(seasonOf(away, ...days)).toEqual(seasonOf(here, ...days));
});

test("of a run that was put away before deviations were kept, none is claimed", () => {
  const run = runAfter(0, "run-1");
  const { process: _, deviations: __, inBath: ___, ...touched } = touchedBy(run);
  const { id, title, tank, plannedAt } = run;
  const bench: Bench = { ...benchWith(), pastRuns: [{ id, title, tank, plannedAt, touched }] };
  const season = seasonOf(bench, "2026-11-01", "2026-11-30");
  expect(season.processes[0]?.process).toBe("not kept");
  expect(season.months).toEqual([{ month: "2026-11", runs: 1, known: 0, deviations: 0 }]);
});

test("both days belong to it", () => {
  const bench = benchWith(runAfter(0, "run-1"));
  expect(seasonOf(bench, "2026-11-28", "2026-11-28").runs).toBe(1);
  expect(seasonOf(bench, "2026-11-29", "2026-12-28").runs).toBe(0);
});
