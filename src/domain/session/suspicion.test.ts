import { expect, test } from "vitest";
import { bottleOf } from "../../../test/support/bottles.ts";
import { at, benchWith, runOf, stageOf } from "../../../test/support/runs.ts";
import { celsius } from "../units/quantity.ts";
import { archiveOldRuns } from "./archive.ts";
import type { Bench } from "./bench.ts";
import { inHand } from "./in-hand.ts";
import type { Run } from "./run.ts";
import { clearSuspect, markSuspect, spread, touchedRuns } from "./suspicion.ts";

const poured = (id: string, bottle: string, change: Partial<Run> = {}): Run => ({
  ...runOf([stageOf({ bottle, inAt: at(0), outAt: at(200) })], {
    film: [{ format: "120", count: 1 }],
  }),
  id,
  ...change,
});
const withBottles = (bench: Bench, ...bottles: readonly ReturnType<typeof bottleOf>[]): Bench => ({
  ...bench,
  bottles: Object.fromEntries(bottles.map((bottle) => [bottle.id, bottle])),
});
const a = bottleOf({ id: "a", name: "Acorn" });
const b = bottleOf({ id: "b", name: "Banjo", mixedFrom: ["a"] });
const c = bottleOf({ id: "c", name: "Cactus", mixedFrom: ["b"] });
const d = bottleOf({ id: "d", name: "Dolphin" });

test("a mark spreads to every bottle the bad one was poured into, and to no other", () => {
  const bench = withBottles(benchWith(), a, b, c, d);
  expect(spread(bench, "a")).toEqual(["a", "b", "c"]);
  const marked = markSuspect(bench, { kind: "bottle", id: "a" }, "blix went into it", at(0));
  expect(marked.also).toEqual(["Banjo", "Cactus"]);
  expect(marked.bench.bottles.a?.suspect?.why).toBe("blix went into it");
  expect(marked.bench.bottles.c?.suspect?.why).toBe("Acorn went into it, which is suspect");
  expect(marked.bench.bottles.d?.suspect).toBeUndefined();
});

test("bottles that were poured into each other do not go round for ever", () => {
  const bench = withBottles(benchWith(), { ...a, mixedFrom: ["b"] }, b);
  expect(spread(bench, "a")).toEqual(["a", "b"]);
});

test("a recall lists what the bottle really touched, also through another bottle", () => {
  const planned = { ...runOf([stageOf({ bottle: "a" })]), id: "run-planned" };
  const never = poured("run-never", "a", { nothingIn: true });
  const bench = withBottles(
    benchWith(poured("run-1", "a"), poured("run-2", "b"), poured("run-3", "d"), planned, never),
    a,
    b,
    d,
  );
  const touched = touchedRuns(bench, { kind: "bottle", id: "a" }).map(({ run }) => run);
  expect(touched).toEqual(["run-1", "run-2"]);
});

test("runs that have moved to files of their own are in the list, oldest first", () => {
  const runs = Array.from({ length: 12 }, (_, index) =>
    poured(`run-${index}`, "a", {
      plannedAt: at(index),
      endedAt: at(300 + index),
      ending: "done",
    }),
  );
  const { bench } = archiveOldRuns(withBottles(benchWith(...runs), a));
  expect(Object.keys(bench.runs)).toHaveLength(8);
  const touched = touchedRuns(bench, { kind: "bottle", id: "a" }).map(({ run }) => run);
  expect(touched).toEqual(runs.map(({ id }) => id));
});

test("a thermometer's list has the readings that named none, and says which", () => {
  const reading = { at: at(10), stage: 0, bath: "developer", temperature: celsius(38) };
  const bench = benchWith(
    poured("run-1", "a", { readings: [{ ...reading, thermometer: "red" }] }),
    poured("run-2", "a", { readings: [reading], plannedAt: at(1) }),
    poured("run-3", "a", { readings: [{ ...reading, thermometer: "blue" }] }),
    poured("run-4", "a"),
  );
  const touched = touchedRuns(bench, { kind: "thermometer", id: "red" });
  expect(touched.map(({ run, unsure }) => [run, unsure])).toEqual([
    ["run-1", false],
    ["run-2", true],
  ]);
});

test("a sheet's list has the runs that followed it", () => {
  const bench = benchWith(poured("run-1", "a"), poured("run-2", "a", { sheet: "other" }));
  const touched = touchedRuns(bench, { kind: "sheet", id: "demo" }).map(({ run }) => run);
  expect(touched).toEqual(["run-1"]);
  const marked = markSuspect(bench, { kind: "sheet", id: "demo" }, "misread", at(0)).bench;
  expect(marked.suspects).toHaveLength(1);
  expect(markSuspect(marked, { kind: "sheet", id: "demo" }, "again", at(1)).bench.suspects).toEqual(
    [{ kind: "sheet", name: "demo", since: at(1), why: "again" }],
  );
});

test("a mark taken off leaves the bottle as it was", () => {
  const marked = { ...a, suspect: { since: at(0), why: "smell" } };
  expect(clearSuspect(marked)).toEqual(a);
});

test("what left a tank last is in hand for a while; water never is", () => {
  const run = {
    ...runOf([
      stageOf({ bottle: "a", inAt: at(0), outAt: at(200) }),
      stageOf({ bath: "wash", kind: "wash", inAt: at(200), outAt: at(260) }),
    ]),
    id: "run-1",
  };
  expect(inHand(benchWith(run), at(300))?.bath).toBe("developer");
  expect(inHand(benchWith(run), at(100))).toBeUndefined();
  expect(inHand(benchWith(run), at(3000))).toBeUndefined();
});
