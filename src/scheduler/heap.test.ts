import fc from "fast-check";
import { expect, test } from "vitest";
import { instant } from "../domain/units/quantity.ts";
import { createHeap, type Heap } from "./heap.ts";

function drain(heap: Heap): string[] {
  const keys: string[] = [];
  for (let first = heap.first(); first !== undefined; first = heap.first()) {
    keys.push(first.key);
    heap.remove(first.key);
  }
  return keys;
}

test("keys come out by instant, equal ones in the order they were set", () => {
  const heap = createHeap();
  for (const [key, at] of [
    ["c", 30],
    ["a", 10],
    ["b2", 20],
    ["b1", 20],
  ] as const) {
    heap.set(key, instant(at));
  }
  expect(heap.first()).toMatchObject({ key: "a", at: 10 });
  heap.set("a", instant(20));
  heap.set("c", instant(5));
  expect(drain(heap)).toEqual(["c", "b2", "b1", "a"]);
  expect(heap.first()).toBe(undefined);
});

test("removing a key that is not there does nothing", () => {
  const heap = createHeap();
  heap.remove("a");
  heap.set("b", instant(1));
  heap.remove("a");
  expect(heap.size()).toBe(1);
});

test("any mix of setting, moving and removing keeps the order", () => {
  const step = fc.record({ key: fc.nat(20).map(String), at: fc.option(fc.nat(50)) });
  const law = fc.property(fc.array(step, { maxLength: 120 }), (steps) => {
    const heap = createHeap();
    const model = new Map<string, number>();
    for (const { key, at } of steps) {
      model.delete(key);
      if (at === null) heap.remove(key);
      else {
        heap.set(key, instant(at));
        model.set(key, at);
      }
      expect(heap.size()).toBe(model.size);
    }
    const sorted = [...model].sort(([, one], [, other]) => one - other).map(([key]) => key);
    expect(drain(heap)).toEqual(sorted);
  });
  fc.assert(law);
});
