import { expect, test } from "vitest";
import { checkPlain } from "./plain.ts";

const nothing: Record<string, unknown> = Object.create(null) as Record<string, unknown>;

test.each([1, "", null, true, [1, [null]], { a: { b: [] }, c: undefined }, nothing, "\ud800"])(
  "%j can be stored",
  (value) => {
    expect(() => checkPlain(value)).not.toThrow();
  },
);

// biome-ignore lint/suspicious/noSparseArray: the hole is what is tested.
const hole = [1, , 2];

test.each([
  { value: { a: [Number.NaN] }, place: "value.a[0]" },
  { value: Number.POSITIVE_INFINITY, place: "value" },
  { value: hole, place: "value[1]" },
  { value: { at: new Date(0) }, place: "value.at" },
  { value: new Map(), place: "value" },
  { value: { run: () => 1 }, place: "value.run" },
  { value: [10n], place: "value[0]" },
  { value: undefined, place: "value" },
])("$place is named when it cannot be stored", ({ value, place }) => {
  expect(() => checkPlain(value)).toThrow(`${place} cannot be stored`);
});
