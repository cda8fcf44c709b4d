import fc from "fast-check";
import { expect, test } from "vitest";
import { bottleOf } from "../../../test/support/bottles.ts";
import { millilitres } from "../units/quantity.ts";
import { contentsOf, fillLevels, fillNow } from "./bottle.ts";
import { isEmptier, levelOf, openedOn, pourBack, pourFrom, shareOf } from "./fill.ts";

const ml = millilitres;

test.each([
  [1000, "full"],
  [950, "full"],
  [949, "some air"],
  [700, "some air"],
  [649, "half"],
  [500, "half"],
  [449, "less"],
  [0, "less"],
] as const)("%i mL in a litre bottle is %s", (contents, level) => {
  expect(levelOf(ml(contents), ml(1000))).toBe(level);
});

test("each level's usual share is read back as that level", () => {
  for (const level of fillLevels) {
    expect(levelOf(ml(1000 * shareOf[level]), ml(1000))).toBe(level);
  }
  expect(isEmptier("half", "full")).toBe(true);
  expect(isEmptier("half", "half")).toBe(false);
});

test("poured out and back, what is lost is lost", () => {
  const poured = pourFrom(bottleOf(), ml(400), true, "2026-11-05");
  expect([contentsOf(poured), poured.out, fillNow(poured)]).toEqual([600, 400, "half"]);
  const back = pourBack(poured, ml(350), "2026-11-05");
  expect([contentsOf(back), back.out, fillNow(back)]).toEqual([950, undefined, "full"]);
});

test("what is used up is not waited for", () => {
  expect(pourFrom(bottleOf(), ml(100), false, "2026-11-05").out).toBeUndefined();
});

test("a collapsing bottle is squeezed: no air comes in with a pour", () => {
  const poured = pourFrom(bottleOf({ container: "collapsing" }), ml(700), true, "2026-11-05");
  expect([contentsOf(poured), fillNow(poured)]).toEqual([300, "full"]);
});

test("poured for a tank, a day counts as one level emptier; a collapsing bottle takes in no air", () => {
  const opened = openedOn(bottleOf(), "2026-11-05");
  expect(opened.fills).toEqual([
    { on: "2026-11-01", fill: "full" },
    { on: "2026-11-05", fill: "some air" },
    { on: "2026-11-05", fill: "full" },
  ]);
  expect(fillNow(opened)).toBe("full");
  const squeezed = bottleOf({ container: "collapsing" });
  expect(openedOn(squeezed, "2026-11-05")).toBe(squeezed);
});

test("a bottle never holds less than nothing or more than its size", () => {
  const moves = fc.array(fc.tuple(fc.boolean(), fc.integer({ min: 0, max: 3000 })));
  const law = fc.property(moves, (all) => {
    let bottle = bottleOf();
    for (const [out, volume] of all) {
      bottle = out
        ? pourFrom(bottle, ml(volume), true, "2026-11-05")
        : pourBack(bottle, ml(volume), "2026-11-05");
      expect(contentsOf(bottle)).toBeGreaterThanOrEqual(0);
      expect(contentsOf(bottle)).toBeLessThanOrEqual(1000);
    }
  });
  fc.assert(law);
});
