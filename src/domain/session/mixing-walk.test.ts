import { expect, test } from "vitest";
import { at } from "../../../test/support/runs.ts";
import { grams, millilitres } from "../units/quantity.ts";
import { called, dueStep, isMixed, type Mixing, partIn } from "./mixing-walk.ts";

const walk: Mixing = {
  sheet: "demo",
  bath: "developer",
  kind: "developer",
  total: millilitres(1000),
  vessel: "jug",
  steps: [
    { kind: "water", name: "water", ml: millilitres(640) },
    { kind: "part", name: "A", form: "liquid", ml: millilitres(110) },
    { kind: "part", name: "B", form: "powder", g: grams(12) },
    { kind: "top-up", name: "mark", ml: millilitres(1000) },
  ],
  done: 0,
  stirring: false,
  startedAt: at(0),
};

/** The walk after these words; throws when one was refused. */
const after = (...words: readonly string[]): Mixing =>
  words.reduce((mixing, word) => {
    if (word === "clear") return called(mixing);
    const walked = partIn(mixing, word);
    if (!walked.ok) throw new Error(`${word}: ${walked.trouble.kind}`);
    return walked.mixing;
  }, walk);

test("water, each part until it is clear, and the mark: then it is mixed", () => {
  expect(dueStep(walk)?.name).toBe("water");
  const mixed = after("water", "A", "clear", "b", "clear", "mark");
  expect(isMixed(mixed)).toBe(true);
  expect(dueStep(mixed)).toBeUndefined();
});

test("a part must be clear before anything follows; water need not", () => {
  expect(after("water").stirring).toBe(false);
  expect(after("water", "A").stirring).toBe(true);
  expect(isMixed(after("water", "A", "clear", "B"))).toBe(false);
});

test.each([
  { mixing: walk, named: "A", trouble: { kind: "skipped", due: walk.steps[0] } },
  { mixing: after("water"), named: "B", trouble: { kind: "skipped", due: walk.steps[1] } },
  { mixing: after("water"), named: "mark", trouble: { kind: "skipped", due: walk.steps[1] } },
  { mixing: after("water", "A"), named: "B", trouble: { kind: "not-clear", last: walk.steps[1] } },
  { mixing: after("water", "A"), named: "A", trouble: { kind: "again", due: walk.steps[2] } },
  { mixing: after("water"), named: "water", trouble: { kind: "again", due: walk.steps[1] } },
  { mixing: after("water"), named: "C", trouble: { kind: "no-such-part", due: walk.steps[1] } },
])("$named is refused: $trouble.kind", ({ mixing, named, trouble }) => {
  expect(partIn(mixing, named)).toEqual({ ok: false, trouble: { ...trouble, named } });
});

test("a part of another bath stops the hand, even when its letter is due", () => {
  expect(partIn(after("water"), "A", "blix")).toEqual({
    ok: false,
    trouble: { kind: "other-bath", other: "blix", named: "A" },
  });
});

test("a refusal marks nothing", () => {
  const mixing = after("water");
  partIn(mixing, "B");
  expect(mixing).toEqual(after("water"));
});

test("a part that is called water as well goes in when it is due", () => {
  const [water, ...rest] = walk.steps;
  if (water === undefined) throw new Error("no water");
  const part = { kind: "part", name: "Water", form: "liquid", ml: millilitres(50) } as const;
  const begun = partIn({ ...walk, steps: [water, part, ...rest] }, "water");
  const walked = begun.ok ? partIn(begun.mixing, "water") : begun;
  expect(walked.ok && walked.mixing.done).toBe(2);
});
