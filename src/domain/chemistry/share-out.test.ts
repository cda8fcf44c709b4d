import fc from "fast-check";
import { expect, test } from "vitest";
import { shareOut } from "./share-out.ts";

// INVENTED units: only the sharing is under test.
test.each([
  { rolls: [1, 1, 1, 1, 1, 1, 1], lefts: [4, 4], taken: [4, 3] },
  { rolls: [1, 1], lefts: [5, 5], taken: [2, 0] },
  { rolls: [2, 2], lefts: [3, 1], taken: undefined },
  { rolls: [2], lefts: [1.5, 1.5], taken: undefined },
  // The first bottle filled with the big rolls would leave a small one out.
  { rolls: [3, 2, 2, 2], lefts: [4, 5], taken: [4, 5] },
  { rolls: [], lefts: [], taken: [] },
])("$rolls over $lefts: $taken", ({ rolls, lefts, taken }) => {
  expect(shareOut(rolls, lefts)).toEqual(taken);
});

/** Every roll in every bottle. */
const anyWay = (rolls: readonly number[], lefts: readonly number[]): boolean => {
  const [first, ...rest] = rolls;
  if (first === undefined) return true;
  return lefts.some((left, at) => first <= left && anyWay(rest, lefts.with(at, left - first)));
};

test("it is found exactly where some way of all exists, and fills no bottle over", () => {
  const some = fc.array(fc.integer({ min: 1, max: 6 }), { maxLength: 6 });
  const few = fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 3 });
  const right = fc.property(some, few, (rolls, lefts) => {
    const taken = shareOut(rolls, lefts);
    expect(taken !== undefined).toBe(anyWay(rolls, lefts));
    expect(taken?.every((units, at) => units <= (lefts[at] ?? 0)) ?? true).toBe(true);
    const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0);
    if (taken !== undefined) expect(sum(taken)).toBe(sum(rolls));
  });
  fc.assert(right);
});

test("two hundred rolls over forty bottles are laid out at once", () => {
  const rolls = Array.from({ length: 200 }, (_, at) => (at % 3 === 0 ? 2 : 1));
  const lefts = Array.from({ length: 40 }, () => 8.5);
  expect(shareOut(rolls, lefts)).toBeDefined();
  expect(shareOut([...rolls, 100], lefts)).toBeUndefined();
});
