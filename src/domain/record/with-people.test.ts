import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import type { Bench } from "../session/bench.ts";
import { pouredIn } from "../session/hear.ts";
import { celsius } from "../units/quantity.ts";
import { withPeople } from "./with-people.ts";

const plan = runOf([stageOf(), washOf()]);
const empty: Bench = { ...benchWith(), nextId: 1 };
const peopleOf = (bench: Bench) => bench.runs["run-1"]?.people;

test("who plans, pours, reads and notes is written down, each once", () => {
  const planned = withPeople(empty, benchWith(plan), "Ines");
  expect(peopleOf(planned)).toEqual([{ name: "Ines", did: ["planned"] }]);

  const known = planned.runs["run-1"] ?? plan;
  const poured = withPeople(planned, benchWith(pouredIn(known, at(40))), "Dora");
  expect(peopleOf(poured)).toEqual([
    { name: "Ines", did: ["planned"] },
    { name: "Dora", did: ["poured"] },
  ]);

  const wet = poured.runs["run-1"] ?? plan;
  const reading = { at: at(60), stage: 0, bath: "developer", temperature: celsius(38) };
  const read = withPeople(poured, benchWith({ ...wet, readings: [reading] }), "Dora");
  expect(peopleOf(read)).toContainEqual({ name: "Dora", did: ["poured", "read"] });

  const again = read.runs["run-1"] ?? plan;
  const noted = benchWith({ ...again, notes: [{ at: at(70), text: "x" }], quiet: true });
  expect(peopleOf(withPeople(read, noted, "Dora"))?.[1]?.did).toEqual(["poured", "read", "noted"]);
});

test("what changes no run writes nothing, and gives the very same bench", () => {
  const before = benchWith(plan);
  const after: Bench = { ...before, mode: "wet" };
  expect(withPeople(before, after, "Ines")).toBe(after);
  const quiet: Bench = { ...before, runs: { "run-1": { ...plan, quiet: true } } };
  expect(withPeople(before, quiet, "Ines")).toBe(quiet);
});
