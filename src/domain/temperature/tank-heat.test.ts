import fc from "fast-check";
import { expect, test } from "vitest";
import { blendTemperature } from "../mixing/water-blend.ts";
import { type Celsius, celsius, celsiusDifference, type Millilitres } from "../units/quantity.ts";
import { JUMP_LIMIT, jumps, sayJump } from "./jump.ts";
import { preHeat } from "./pre-heat.ts";
import { afterPour, developerFor, explainHeat, learnTank, tankFor } from "./tank-heat.ts";
import { explainTrim, trimBath } from "./trim-bath.ts";

const ml = (value: number) => value as Millilitres;
const c = (value: number) => value as Celsius;
const tank = (temperature: number, takes: number) => ({
  temperature: c(temperature),
  takes: ml(takes),
});
const developer = (volume: number, temperature: number) => ({
  volume: ml(volume),
  temperature: c(temperature),
});

test("20 L at 80 °C into what takes as much as 10 L at 20 °C: 60 °C, heat-balance exercise, worked solution (read)", () => {
  const landing = afterPour(developer(20_000, 80), tank(20, 10_000));
  expect(landing.ok && landing.value.lands).toBeCloseTo(60, 9);
  expect(landing.ok && landing.value.drop).toBeCloseTo(20, 9);
});

test("520 mL must be 85.92 °C to bring 640 mL at 48 °C to 65: water mixing problem 25541, worked solution (read)", () => {
  const needed = developerFor(c(65), ml(520), tank(48, 640));
  expect(needed.ok && Math.abs(needed.value - 85.923)).toBeLessThanOrEqual(0.01);
});

test("755.6 mL from 60 °C to 49 °C over 15 °C tells of 244.4 mL: own arithmetic from the exercise (derived)", () => {
  const takes = learnTank(ml(755.6), c(60), c(49), c(15));
  expect(takes.ok && Math.abs(takes.value - 244.4)).toBeLessThanOrEqual(0.1);
});

test("equal volumes of 60 and 20 °C come to 39.85 °C by mass, so a blend ends with a thermometer: own, densities of a standard table (derived)", () => {
  const blend = blendTemperature(developer(500, 60), developer(500, 20));
  expect(blend.ok && Math.abs(blend.value.temperature - 39.85)).toBeLessThanOrEqual(0.02);
  const trimmed = trimBath(developer(500, 20), celsiusDifference(19.85), c(60), c(10));
  expect(trimmed.ok && Math.abs(trimmed.value.add - 500)).toBeLessThanOrEqual(0.5);
});

test.each([
  { takes: 30, drop: 1.0 },
  { takes: 70, drop: 2.2 },
])(
  "500 mL at 38 °C in a 20 °C tank worth $takes mL of water falls $drop °C: own calculation, tank assumed (derived)",
  ({ takes, drop }) => {
    const landing = afterPour(developer(500, 38), tank(20, takes));
    expect(landing.ok && landing.value.drop).toBeCloseTo(drop, 1);
  },
);

test("what was learned foretells the same pour, and undoes it", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 100, max: 3000, noNaN: true }),
      fc.double({ min: 0.01, max: 0.49, noNaN: true }),
      fc.double({ min: 5, max: 50, noNaN: true }),
      fc.double({ min: 5, max: 40, noNaN: true }),
      fc.boolean(),
      (volume, share, cold, apart, warmTank) => {
        const [before, start] = warmTank ? [cold, cold + apart] : [cold + apart, cold];
        const after = before + (start - before) * share;
        const takes = learnTank(ml(volume), c(before), c(after), c(start));
        if (!takes.ok) throw new Error(takes.error.kind);
        const landing = afterPour(developer(volume, before), tank(start, takes.value));
        expect(landing.ok && landing.value.lands).toBeCloseTo(after, 6);
        const needed = developerFor(c(after), ml(volume), tank(start, takes.value));
        expect(needed.ok && needed.value).toBeCloseTo(before, 6);
        const tankNeeded = tankFor(c(after), developer(volume, before), takes.value);
        expect(tankNeeded.ok && tankNeeded.value).toBeCloseTo(start, 6);
      },
    ),
  );
});

test("pre-heat advice: where it lands and what either would have to be", () => {
  const advice = preHeat(c(37.8), celsiusDifference(0.15), developer(500, 38), tank(20, 50));
  if (!advice.ok) throw new Error(advice.error.kind);
  expect(advice.value.inside).toBe(false);
  expect(advice.value.lands).toBeCloseTo((500 * 38 + 50 * 20) / 550, 9);
  expect(advice.value.developer).toBeCloseTo(37.8 + (50 * 17.8) / 500, 9);
  expect(advice.value.tank).toBeCloseTo(37.8 - (500 * 0.2) / 50, 9);
  expect(advice.value.tankFrom).toBeCloseTo(37.65 - (500 * 0.35) / 50, 9);
  expect(advice.value.tankTo).toBeCloseTo(37.95 + (500 * -0.05) / 50, 9);
  const warm = preHeat(c(37.8), celsiusDifference(0.15), developer(500, 37.8), tank(37.8, 50));
  expect(warm.ok && warm.value.inside).toBe(true);
  const far = preHeat(c(37.8), celsiusDifference(0.15), developer(500, 20), tank(20, 50));
  expect(far.ok && far.value).toMatchObject({ tank: undefined });
  expect(far.ok && far.value.developer).toBeCloseTo(39.58, 2);
});

test.each([
  { name: "no fall: a tank of zero", given: [500, 38, 38, 20], says: "must come out between" },
  { name: "a rise", given: [500, 38, 39, 20], says: "must come out between" },
  { name: "as cold as the tank", given: [500, 38, 20, 20], says: "must come out between" },
  { name: "too close", given: [500, 38, 37.9, 34], says: "only 4 °C apart" },
  { name: "a tank of lead", given: [500, 38, 28, 20], says: "as much heat as 625 mL" },
  { name: "boiling", given: [500, 138, 38, 20], says: "from 0 to 100 °C" },
  { name: "no volume", given: [0, 38, 37, 20], says: "volume, above zero" },
  { name: "no number", given: [500, Number.NaN, 37, 20], says: "I need a temperature" },
  { name: "no volume at all", given: [Number.NaN, 38, 37, 20], says: "volume, above zero" },
])(
  "nothing is learned from $name",
  ({ given: [volume = 0, before = 0, after = 0, start = 0], says }) => {
    const takes = learnTank(ml(volume), c(before), c(after), c(start));
    expect(takes.ok ? "" : explainHeat(takes.error)).toContain(says);
  },
);

test.each([0, -5, Number.NaN])("a tank that takes %d mL is refused", (takes) => {
  const refused = [
    afterPour(developer(500, 38), tank(20, takes)),
    developerFor(c(38), ml(500), tank(20, takes)),
    tankFor(c(38), developer(500, 38), ml(takes)),
    preHeat(c(38), celsiusDifference(0.1), developer(500, 38), tank(20, takes)),
  ];
  for (const one of refused)
    expect(one.ok ? "" : explainHeat(one.error)).toContain("takes some heat");
});

test("what no water can be is said", () => {
  const developerTooHot = developerFor(c(60), ml(100), tank(0, 100));
  expect(developerTooHot.ok ? "" : explainHeat(developerTooHot.error)).toContain(
    "at 120 °C to land on 60 °C: warm the tank",
  );
  const tankTooHot = tankFor(c(40), developer(500, 20), ml(50));
  expect(tankTooHot.ok ? "" : explainHeat(tankTooHot.error)).toContain(
    "The tank would have to be at 240 °C",
  );
});

const at = (bath: string, temperature: number) => ({ bath, temperature: celsius(temperature) });
test("jumps beyond 3 °C are named, up and down: sources disagree (common practice)", () => {
  const baths = [at("developer", 38), at("bleach", 35), at("wash", 31.9), at("fixer", 36)];
  const found = jumps(baths);
  expect(JUMP_LIMIT.value).toBe(3);
  expect(found.map(({ to, by }) => [to.bath, Math.round(by * 10) / 10])).toEqual([
    ["wash", -3.1],
    ["fixer", 4.1],
  ]);
  expect(found[0] && sayJump(found[0])).toBe(
    "From the bleach at 35 °C to the wash at 31.9 °C is a jump of 3.1 °C: bring them closer.",
  );
  expect(jumps(baths, celsiusDifference(5))).toEqual([]);
  expect(jumps([])).toEqual([]);
});

test("a bath is trimmed with hot water up and cold water down", () => {
  const bath = developer(5000, 37);
  const up = trimBath(bath, celsiusDifference(1), c(60), c(12));
  expect(up.ok && up.value).toMatchObject({ from: "hot" });
  expect(up.ok && up.value.add).toBeCloseTo((5000 * 1) / 22, -1);
  const down = trimBath(bath, celsiusDifference(-1), c(60), c(12));
  expect(down.ok && down.value).toMatchObject({ from: "cold" });
  const same = trimBath(bath, celsiusDifference(0), c(60), c(12));
  expect(same.ok && same.value.add).toBe(0);
});

test.each([
  { by: 30, hot: 60, says: "take hotter water" },
  { by: 70, hot: 60, says: "for the trimmed bath" },
  { by: Number.NaN, hot: 60, says: "I need a temperature" },
])("$by °C cannot be had from $hot °C water: $says", ({ by, hot, says }) => {
  const trimmed = trimBath(
    developer(5000, 37),
    by as ReturnType<typeof celsiusDifference>,
    c(hot),
    c(12),
  );
  expect(trimmed.ok ? "" : explainTrim(trimmed.error)).toContain(says);
});
