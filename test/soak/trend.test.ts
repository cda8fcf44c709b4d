import { expect, test } from "vitest";
import { seeded } from "../support/seeded.ts";
import { isFlat, levelsOff, type Point, trendOf } from "./trend.ts";

/** Readings every minute for an hour, that scatter by up to `noise` either way. */
function readings(perMinute: number, noise: number, seed: number): readonly Point[] {
  const chance = seeded(seed);
  return Array.from({ length: 60 }, (_, at) => ({
    at,
    value: 50 + perMinute * at + noise * (chance() * 2 - 1),
  }));
}

test("the worked example of the slope: the median of all slopes between two points", () => {
  // From the definition (Sen 1968), by hand: slopes 1, 1, 3, 1, 4, 7; the median is 2.
  const points = [0, 1, 2, 9].map((value, at) => ({ at, value }));
  expect(trendOf(points)).toMatchObject({ slope: 2, median: 1.5 });
});

test("a leak is seen through its noise, and noise is no leak", () => {
  for (let seed = 1; seed <= 20; seed += 1) {
    expect(isFlat(trendOf(readings(0, 3, seed)), 60, 1), `seed ${seed}`).toBe(true);
    expect(isFlat(trendOf(readings(0.1, 3, seed)), 60, 1), `seed ${seed}`).toBe(false);
  }
});

test("one wild reading bends nothing", () => {
  const points = readings(0, 0.1, 1).map((one) => (one.at === 59 ? { at: 59, value: 500 } : one));
  expect(Math.abs(trendOf(points).slope)).toBeLessThan(0.01);
});

test("what fills up levels off, and a leak does not, noise or no noise", () => {
  for (let seed = 1; seed <= 20; seed += 1) {
    const noise = readings(0, 0.3, seed);
    const filling = noise.map(({ at, value }) => ({ at, value: value - 4 * Math.exp(-at / 15) }));
    expect(levelsOff(filling), `seed ${seed}`).toBe(true);
    expect(levelsOff(readings(0.1, 0.3, seed)), `seed ${seed}`).toBe(false);
  }
});
