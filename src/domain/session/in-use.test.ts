import { expect, test } from "vitest";
import { bottleOf } from "../../../test/support/bottles.ts";
import { at, benchWith, evening, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import type { Bench } from "./bench.ts";
import { signIn, signOut, takenThings, thingsCalled } from "./in-use.ts";

const run = runOf(
  [stageOf({ bottle: "acorn" }), stageOf({ bottle: "banjo", kind: "blix" }), washOf()],
  {
    by: "Dora",
  },
);
const bench: Bench = {
  ...benchWith(run),
  bottles: {
    acorn: bottleOf({ id: "acorn", name: "Acorn" }),
    banjo: bottleOf({ id: "banjo", name: "Banjo", bath: "blix" }),
    north: bottleOf({ id: "north", name: "North" }),
  },
  thermometers: { red: { name: "red", checks: [] } },
};
const names = (of: Bench): readonly string[] =>
  takenThings(of).map(({ kind, name, by }) => `${kind} ${name} ${by}`);

test("an open run has its tank and every bottle it will still pour, for who planned it", () => {
  expect(names(bench)).toEqual(["tank North Dora", "bottle Acorn Dora", "bottle Banjo Dora"]);
  const later = { ...run, current: 1 };
  expect(names({ ...bench, runs: { [run.id]: later } })).not.toContain("bottle Acorn Dora");
  const over = { ...run, endedAt: at(900) };
  expect(names({ ...bench, runs: { [run.id]: over } })).toEqual([]);
});

test("what is signed in outranks the run, and is free again when signed out", () => {
  const [acorn] = thingsCalled(bench, "the bottle Acorn");
  if (acorn === undefined) throw new Error("Acorn is there");
  const signed = signIn(bench, acorn, "Bruno", evening);
  expect(names(signed)).toEqual(["bottle Acorn Bruno", "tank North Dora", "bottle Banjo Dora"]);
  expect(names(signOut(signed, [acorn]))).toEqual(names(bench));
});

test.each([
  ["acorn", ["bottle"]],
  ["north", ["bottle", "tank"]],
  ["tank north", ["tank"]],
  ["the north bottle", ["bottle"]],
  ["the red thermometer", ["thermometer"]],
  ["bottle red", []],
  ["zelda", []],
])("%s is a %s", (text, kinds) => {
  expect(thingsCalled(bench, text).map(({ kind }) => kind)).toEqual(kinds);
});
