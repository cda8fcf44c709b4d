import fc from "fast-check";
import { expect, test } from "vitest";
import { bottleOf } from "../../../test/support/bottles.ts";
import { at, benchWith, runOf, stageOf } from "../../../test/support/runs.ts";
import { apply, diff } from "../changes.ts";
import { filmFormats } from "../film/load.ts";
import { units } from "../units/quantity.ts";
import { finish } from "./advance.ts";
import type { Bench } from "./bench.ts";
import { correctCount, countFilm, giveBack } from "./count-film.ts";
import type { Run } from "./run.ts";

const dev = bottleOf({ id: "dev", name: "Acorn", used: units(3) });
const blix = bottleOf({ id: "blix", name: "Banjo", bath: "blix", used: units(5) });
const run = (film: Run["film"]): Run =>
  runOf(
    [
      stageOf({ bottle: "dev", inAt: at(0), outAt: at(200) }),
      stageOf({ bath: "blix", kind: "blix", bottle: "blix", inAt: at(210) }),
    ],
    { film: [...film] },
  );
const benchOf = (film: Run["film"]): Bench => ({
  ...benchWith(run(film)),
  bottles: { dev, blix },
});
const used = ({ bottles }: Bench) => [bottles.dev?.used, bottles.blix?.used];
const two: Run["film"] = [{ format: "120", count: 2 }];

test("counted, then given back: every bottle has what it had, and it is not counted again", () => {
  const counted = countFilm(benchOf(two), "run-1");
  expect(used(counted)).toEqual([5, 7]);
  const back = giveBack(counted, "run-1");
  expect(used(back)).toEqual([3, 5]);
  expect(countFilm(back, "run-1")).toBe(back);
  // Three were done in tanks nobody counted: one each.
  expect(back.bottles.dev?.batches).toBe(3);
});

test("giving back restores units exactly, whatever the film", () => {
  const film = fc.array(
    fc.record({ format: fc.constantFrom(...filmFormats), count: fc.integer({ min: 1, max: 9 }) }),
    { minLength: 1, maxLength: 4 },
  );
  const law = fc.property(film, (load) => {
    const counted = countFilm(benchOf(load), "run-1");
    expect(
      used(giveBack(counted, "run-1")).map((one) => Math.round((one ?? 0) * 1e9) / 1e9),
    ).toEqual([3, 5]);
    const before = benchOf(load);
    expect(apply(counted, diff(counted, before))).toEqual(before);
  });
  fc.assert(law);
});

test("each tank counts one batch for a rule that counts tanks", () => {
  expect(countFilm(benchOf(two), "run-1").bottles.dev?.batches).toBe(4);
  const fresh = { ...benchOf(two), bottles: { dev: { ...dev, used: units(0) }, blix } };
  expect(countFilm(fresh, "run-1").bottles.dev?.batches).toBe(1);
});

test("a run's count put right changes its other bottles by the same difference", () => {
  const counted = countFilm(benchOf(two), "run-1");
  const right = correctCount(counted, "run-1", "dev", units(4));
  expect(used(right)).toEqual([4, 6]);
  expect(right.runs["run-1"]?.counted.map(({ after }) => after)).toEqual([4, 6]);
  expect(right.runs["run-1"]?.countConfirmed).toBe(true);
});

test("a bottle's count set by hand confirms what ended runs counted for it, and changes no other", () => {
  const counted = countFilm(benchOf(two), "run-1");
  const done = counted.runs["run-1"];
  if (done === undefined) throw new Error("no run");
  const ended = { ...counted, runs: { "run-1": finish(done, at(400), "done") } };
  const set = correctCount(ended, undefined, "dev", units(9));
  expect(used(set)).toEqual([9, 7]);
  expect(set.runs["run-1"]?.countConfirmed).toBe(true);
});

test("no count falls below zero", () => {
  const counted = countFilm(benchOf(two), "run-1");
  expect(used(correctCount(counted, "run-1", "blix", units(0)))).toEqual([0, 0]);
});
