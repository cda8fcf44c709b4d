import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { celsius, seconds } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import { pouredIn, pouredOut } from "./hear.ts";
import type { Run } from "./run.ts";
import { signWork } from "./sign-work.ts";

const planned = runOf([stageOf(), washOf()]);
const signed = (before: Run | undefined, after: Run, who: string): Run => {
  const was = before === undefined ? benchWith() : benchWith(before);
  const run = signWork(was, benchWith(after), who).runs[after.id];
  if (run === undefined) throw new Error("the run is gone");
  return run;
};

test("who plans, who pours in and who pours out stand beside what they did", () => {
  const begun = signed(undefined, planned, "Ines");
  const full = signed(begun, pouredIn(begun, at(30)), "Dora");
  const out = signed(full, pouredOut(full, at(220)), "Bruno");
  expect(begun.by).toBe("Ines");
  expect(out).toMatchObject({ by: "Ines", stages: [{ inBy: "Dora", outBy: "Bruno" }, {}] });
  expect(out.stages[1]).not.toHaveProperty("inBy");
});

test("what the clock assumed is nobody's until somebody confirms it", () => {
  const assumed = runOf([
    stageOf({ inAt: at(40), plusMinus: seconds(10), outAt: at(235), outByClock: true }),
    washOf(),
  ]);
  expect(signed(planned, assumed, "Ines").stages[0]).not.toHaveProperty("inBy");
  expect(signed(planned, assumed, "Ines").stages[0]).not.toHaveProperty("outBy");
  const { outByClock: _, plusMinus: __, ...sure } = assumed.stages[0] ?? stageOf();
  const known = { ...assumed, stages: [sure, washOf()] };
  expect(signed(assumed, known, "Dora").stages[0]).toMatchObject({ inBy: "Dora", outBy: "Dora" });
});

test("a word that moves nothing of a bath leaves its names, and the bench, as they were", () => {
  const run = { ...planned, stages: [stageOf({ inAt: at(40), inBy: "Ines" }), washOf()] };
  const noted = { ...run, notes: [{ at: at(50), text: "wet" }] };
  expect(signed(run, noted, "Dora").stages).toBe(noted.stages);
  const bench = benchWith(run);
  expect(signWork(bench, { ...bench, name: "other" }, "Dora").runs).toBe(bench.runs);
});

const peopleOf = (bench: Bench) => bench.runs["run-1"]?.people;

test("who plans, pours, reads and notes stands in the list of people, each once", () => {
  const begun = signWork(benchWith(), benchWith(planned), "Ines");
  expect(peopleOf(begun)).toEqual([{ name: "Ines", did: ["planned"] }]);

  const known = begun.runs["run-1"] ?? planned;
  const poured = signWork(begun, benchWith(pouredIn(known, at(40))), "Dora");
  expect(peopleOf(poured)).toEqual([
    { name: "Ines", did: ["planned"] },
    { name: "Dora", did: ["poured"] },
  ]);

  const wet = poured.runs["run-1"] ?? planned;
  const reading = { at: at(60), stage: 0, bath: "developer", temperature: celsius(38) };
  const read = signWork(poured, benchWith({ ...wet, readings: [reading] }), "Dora");
  expect(peopleOf(read)).toContainEqual({ name: "Dora", did: ["poured", "read"] });

  const again = read.runs["run-1"] ?? planned;
  const noted = benchWith({ ...again, notes: [{ at: at(70), text: "x" }], quiet: true });
  expect(peopleOf(signWork(read, noted, "Dora"))?.[1]?.did).toEqual(["poured", "read", "noted"]);
});

test("a run that comes back from its file is nobody's anew: only the answer is signed", () => {
  const old = {
    ...runOf([stageOf({ inAt: at(0), outAt: at(195), inBy: "Dora" })]),
    by: "Dora",
    people: [{ name: "Dora", did: ["planned" as const, "poured" as const] }],
    endedAt: at(195),
  };
  const back = signed(undefined, old, "Ines");
  expect(back).toEqual({ ...old, people: [...old.people, { name: "Ines", did: ["answered"] }] });
});

test("what changes no run writes nothing, and gives the very same bench", () => {
  const before = benchWith(planned);
  const after: Bench = { ...before, mode: "wet" };
  expect(signWork(before, after, "Ines")).toBe(after);
  const quiet: Bench = { ...before, runs: { "run-1": { ...planned, quiet: true } } };
  expect(signWork(before, quiet, "Ines")).toBe(quiet);
});
