import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { later } from "../../src/domain/units/quantity.ts";
import { tooMuch } from "../../src/export/too-much.ts";
import { unknownKey } from "../../src/export/unknown-key.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import { eveningScript } from "../support/evening-script.ts";
import { evening } from "../support/runs.ts";

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

test("after every word there is, what a bench holds is what a restore takes", async () => {
  const store = createMemoryStore<BenchRecord>();
  const commands = await loadCommands();
  const { keeper } = await BenchKeeper.open("home", { zone: "UTC" }, store, commands);
  let now = evening;
  const strange: string[] = [];
  for (const line of eveningScript) {
    if (line.startsWith("@")) {
      now = later(now, Number(line.slice(1)));
      for (let due = keeper.nextDue(); due !== undefined && due <= now; due = keeper.nextDue()) {
        await keeper.tick(due, () => undefined);
      }
    } else await keeper.hear({ text: line, who: "Ines", standing: "owner" }, now);
    const stored = plain(keeper.record);
    const key = unknownKey(stored, recordSchema.parse(stored)) ?? tooMuch(keeper.record);
    if (key !== undefined) strange.push(`${line}: ${key}`);
  }
  expect(strange.slice(0, 5)).toEqual([]);
});

test.each([
  ["a key", { a: 1, b: 2 }, { a: 1 }, "b"],
  ["one further in", { a: [{ b: { c: 1 } }] }, { a: [{ b: {} }] }, "a.0.b.c"],
  ["one that is called as what all objects have", { toString: 1 }, {}, "toString"],
  ["one that changes what objects inherit", JSON.parse('{"__proto__":1}'), {}, "__proto__"],
  ["none", { a: [1, { b: null }] }, { a: [1, { b: null }], more: 1 }, undefined],
  ["none where a list was let go of", { undo: [1, 2] }, { undo: [] }, undefined],
  ["none where a value was let go of", { last: { a: 1 } }, { last: undefined }, undefined],
])("%s that its schema does not know is found", (_, stored, parsed, key) => {
  expect(unknownKey(stored, parsed)).toBe(key);
});
