import { expect, test } from "vitest";
import { checkRollName, explainName, spreadName } from "./name-roll.ts";
import { type Roll, rollSchema } from "./roll.ts";
import { rollNames } from "./roll-names.ts";

const roll = (number: number, name?: string, change: Partial<Roll> = {}): Roll => ({
  ...rollSchema.parse({ id: `roll-${number}`, number, format: "120" }),
  ...(name === undefined ? {} : { name }),
  ...change,
});

test("a name that sounds like one that waits is refused, and says which", () => {
  const rolls = [roll(1, "beach 1"), roll(2, "beach 2"), roll(3)];
  const trouble = checkRollName("beech", rolls);
  expect(trouble && explainName(trouble)).toBe(
    "Beech sounds like Beach, which waits on the list. Give it another name.",
  );
  expect(checkRollName("harbour", rolls)).toBeUndefined();
  expect(checkRollName("beach", rolls, ["roll-1", "roll-2"])).toBeUndefined();
});

test("a name is free again when its roll is done or dropped", () => {
  expect(checkRollName("beach", [roll(1, "beach", { doneIn: "run-1" })])).toBeUndefined();
  expect(checkRollName("beach", [roll(1, "beach", { droppedOn: "2026-11-28" })])).toBeUndefined();
});

test.each(["roll", "all", "7", "tonight", "!"])("%j is no name for a roll", (name) => {
  expect(checkRollName(name, [])?.kind).toBe("no-name");
});

test("several rolls under one name are numbered", () => {
  expect(spreadName("beach", 2)).toEqual(["beach 1", "beach 2"]);
  expect(spreadName("beach", 1)).toEqual(["beach"]);
  expect(spreadName(undefined, 2)).toEqual([undefined, undefined]);
});

test("rolls are meant by number, by name and by the name they share", () => {
  const names = rollNames([
    roll(1, "beach 1"),
    roll(2, "beach 2"),
    roll(3, "dunes", { doneIn: "run-1" }),
    roll(4, "beach", { doneIn: "run-1" }),
    roll(5, "pier", { droppedOn: "2026-11-28" }),
  ]);
  expect(names.byNumber.get(5)).toBe("roll-5");
  expect(names.byName.get("beach")).toEqual(["roll-1", "roll-2"]);
  expect(names.byName.get("beach two")).toEqual(["roll-2"]);
  expect(names.byName.get("dunes")).toEqual(["roll-3"]);
  expect(names.byName.get("pier")).toBeUndefined();
  expect(names.waiting).toEqual(["roll-1", "roll-2"]);
});
