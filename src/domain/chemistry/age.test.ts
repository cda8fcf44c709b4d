import fc from "fast-check";
import { expect, test } from "vitest";
import { bottleOf, dayAfter, keepingDays } from "../../../test/support/bottles.ts";
import { millilitres } from "../units/quantity.ts";
import { ageShare, dueOn, fillSpans } from "./age.ts";
import { type Bottle, contentsOf } from "./bottle.ts";
import { pourBack, pourFrom, withFill } from "./fill.ts";

const keeping = { days: keepingDays };
const share = (bottle: Bottle, days: number): number => ageShare(bottle, keeping, dayAfter(days));

test("a full bottle uses up its keeping time day by day, and is good on its last day", () => {
  expect(share(bottleOf(), 0)).toBe(0);
  expect(share(bottleOf(), 10)).toBeCloseTo(0.25, 12);
  expect(share(bottleOf(), 40)).toBeCloseTo(1, 12);
  expect(dueOn(bottleOf(), keeping)).toBe("2026-12-11");
});

test("days at each fill level count by the keeping time there", () => {
  // 10 of 40 days full, then 5 of 10 days half: a quarter and a half.
  const bottle = withFill(bottleOf(), "half", dayAfter(10));
  expect(share(bottle, 15)).toBeCloseTo(0.75, 12);
  // A quarter is left, at half: two and a half days, so two whole ones.
  expect(dueOn(bottle, keeping)).toBe(dayAfter(17));
});

test("a pour counts from its day, a refill from the day after", () => {
  const poured = withFill(bottleOf(), "less", dayAfter(10));
  const back = withFill(poured, "full", dayAfter(10));
  expect(fillSpans(back)).toEqual([
    { from: dayAfter(0), fill: "full" },
    { from: dayAfter(10), fill: "less" },
    { from: dayAfter(11), fill: "full" },
  ]);
  expect(share(back, 11)).toBeCloseTo(10 / 40 + 1 / 5, 12);
});

test("several pours and returns on one day count that day once, at its emptiest", () => {
  let bottle = bottleOf();
  for (let round = 0; round < 3; round += 1) {
    bottle = withFill(withFill(bottle, "less", dayAfter(4)), "full", dayAfter(4));
  }
  expect(share(bottle, 5)).toBeCloseTo(4 / 40 + 1 / 5, 12);
});

test("a second pour on the day of a return does not forget how empty it had stood", () => {
  const low = withFill(bottleOf(), "less", dayAfter(0));
  const again = withFill(withFill(low, "some air", dayAfter(0)), "half", dayAfter(0));
  expect(fillSpans(again)).toEqual([
    { from: dayAfter(0), fill: "less" },
    { from: dayAfter(1), fill: "half" },
  ]);
});

test("a bottle past its time still tells the last day it was good", () => {
  const bottle = withFill(withFill(bottleOf(), "less", dayAfter(5)), "full", dayAfter(30));
  expect(share(bottle, 60)).toBeGreaterThan(1);
  // An eighth full, then 5 days of "less" for each whole: 4.375 days.
  expect(dueOn(bottle, keeping)).toBe(dayAfter(9));
});

test("a change of clocks takes or gives no day: 40 days over the end of October", () => {
  const bottle = bottleOf({ mixedOn: "2026-10-01" });
  expect(ageShare(bottle, keeping, "2026-11-10")).toBeCloseTo(1, 12);
  expect(dueOn(bottle, keeping)).toBe("2026-11-10");
});

const step = fc.record({
  wait: fc.nat(12),
  pour: fc.boolean(),
  ml: fc.integer({ min: 1, max: 1000 }),
});

/** A life of pours and returns. */
function live(steps: readonly { wait: number; pour: boolean; ml: number }[]): Bottle[] {
  let day = 0;
  let bottle = bottleOf();
  const lives = [bottle];
  for (const { wait, pour, ml } of steps) {
    day += wait;
    bottle = pour
      ? pourFrom(bottle, millilitres(Math.min(ml, contentsOf(bottle))), true, dayAfter(day))
      : pourBack(bottle, millilitres(ml), dayAfter(day));
    lives.push(bottle);
  }
  return lives;
}

test("the age share never falls as days go by", () => {
  const law = fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
    const bottle = live(steps).at(-1) ?? bottleOf();
    let last = 0;
    for (let day = 0; day < 160; day += 1) {
      const now = share(bottle, day);
      expect(now).toBeGreaterThanOrEqual(last - 1e-12);
      last = now;
    }
  });
  fc.assert(law, { numRuns: 60 });
});

test("no pour and no return ever makes a bottle younger than if it had been left alone", () => {
  const law = fc.property(fc.array(step, { maxLength: 12 }), fc.nat(40), (steps, more) => {
    const lives = live(steps);
    const end = steps.reduce((sum, { wait }) => sum + wait, 0) + more;
    const untouched = share(bottleOf(), end);
    for (const bottle of lives)
      expect(share(bottle, end)).toBeGreaterThanOrEqual(untouched - 1e-12);
  });
  fc.assert(law, { numRuns: 200 });
});

test("a pour never lowers the share of any later day", () => {
  const law = fc.property(
    fc.array(step, { maxLength: 8 }),
    fc.integer({ min: 1, max: 1000 }),
    fc.nat(60),
    (steps, ml, more) => {
      const before = live(steps).at(-1) ?? bottleOf();
      const end = steps.reduce((sum, { wait }) => sum + wait, 0);
      const after = pourFrom(
        before,
        millilitres(Math.min(ml, contentsOf(before))),
        true,
        dayAfter(end),
      );
      expect(share(after, end + more)).toBeGreaterThanOrEqual(share(before, end + more) - 1e-12);
    },
  );
  fc.assert(law, { numRuns: 300 });
});

test("on its last good day a bottle has used no more than its time, a day later more", () => {
  const law = fc.property(fc.array(step, { maxLength: 10 }), (steps) => {
    const bottle = live(steps).at(-1) ?? bottleOf();
    const due = dueOn(bottle, keeping);
    const next = Temporal.PlainDate.from(due).add({ days: 1 }).toString();
    expect(ageShare(bottle, keeping, due)).toBeLessThanOrEqual(1 + 1e-6);
    expect(ageShare(bottle, keeping, next)).toBeGreaterThan(1 - 1e-6);
  });
  fc.assert(law, { numRuns: 200 });
});
