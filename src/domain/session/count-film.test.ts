import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { apply, diff } from "../changes.ts";
import type { Bottle } from "../chemistry/bottle.ts";
import { millilitres, units } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import { countFilm } from "./count-film.ts";
import { pouredIn, pouredOut } from "./hear.ts";
import type { Run } from "./run.ts";

const bottleOf = (id: string, used: number): Bottle => ({
  id,
  name: id,
  mark: "square",
  bath: "developer",
  volume: millilitres(1000),
  mixedOn: "2026-11-28",
  by: "Ines",
  used: units(used),
});

const film = [
  { format: "135-36", count: 2 },
  { format: "4x5", count: 2 },
] as const;

const bench = (run: Run): Bench => ({
  ...benchWith(run),
  bottles: { dora: bottleOf("dora", 3), nils: bottleOf("nils", 0) },
});

const planned = runOf(
  [stageOf({ bottle: "dora" }), washOf(), stageOf({ bath: "blix", kind: "blix", bottle: "nils" })],
  { film: [...film] },
);
const used = ({ bottles }: Bench) => [bottles.dora?.used, bottles.nils?.used];

test("a plan alone counts nothing", () => {
  const before = bench(planned);
  expect(countFilm(before, planned.id)).toBe(before);
});

test("film counts for the bottle it went into, with what was there before and after", () => {
  const counted = countFilm(bench(pouredIn(planned, at(40))), planned.id);
  expect(used(counted)).toEqual([5.5, 0]);
  expect(counted.runs[planned.id]?.counted).toEqual([{ bottle: "dora", before: 3, after: 5.5 }]);
});

test("counting again, or going on, counts each bottle once", () => {
  const once = countFilm(bench(pouredIn(planned, at(40))), planned.id);
  expect(countFilm(once, planned.id)).toBe(once);
  let run = once.runs[planned.id] ?? planned;
  for (const moment of [235, 240, 440, 445]) {
    const step = run.stages[run.current]?.inAt === undefined ? pouredIn : pouredOut;
    run = step(run, at(moment));
  }
  const later = countFilm({ ...once, runs: { [run.id]: run } }, run.id);
  expect(used(later)).toEqual([5.5, 2.5]);
});

test("one bottle that is poured twice in a run counts once", () => {
  const twice = runOf([stageOf({ bottle: "dora" }), stageOf({ bottle: "dora" })], {
    film: [...film],
  });
  const run = pouredIn(pouredOut(pouredIn(twice, at(40)), at(235)), at(250));
  expect(used(countFilm(bench(run), run.id))).toEqual([5.5, 0]);
});

test.each([
  { what: "no film was named", run: { ...pouredIn(planned, at(40)), film: [] } },
  {
    what: "the bath has no bottle",
    run: pouredIn(runOf([stageOf()], { film: [...film] }), at(40)),
  },
  {
    what: "the bottle is gone",
    run: pouredIn(runOf([stageOf({ bottle: "gone" })], { film: [...film] }), at(40)),
  },
])("nothing is counted where $what", ({ run }) => {
  const before = bench(run);
  expect(countFilm(before, run.id)).toBe(before);
});

test("a run the bench does not have counts nothing", () => {
  const before = bench(planned);
  expect(countFilm(before, "run-9")).toBe(before);
});

test("undo gives the count back", () => {
  const before = bench(planned);
  const wet = { ...before, runs: { [planned.id]: pouredIn(planned, at(40)) } };
  const after = countFilm(wet, planned.id);
  const undone = apply(after, diff(after, before));
  expect(undone).toEqual(before);
  expect(used(undone)).toEqual([3, 0]);
});
