import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { celsius, millilitres as ml } from "../units/quantity.ts";
import { hotAndCold, type WaterWanted } from "./hot-and-cold.ts";
import { blendTemperature } from "./water-blend.ts";
import { waterDensity } from "./water-density.ts";
import { explainWater } from "./water-error.ts";

const at = (volume: number, temperature: number) => ({
  volume: ml(volume),
  temperature: celsius(temperature),
});
const jug = (temperature: number, water: number) =>
  ({ temperature: celsius(temperature), takes: { kind: "water", ml: water } }) as const;
const ask = (
  volume: number,
  target: number,
  hot: number,
  cold: number,
  more: Partial<WaterWanted> = {},
) =>
  hotAndCold({
    volume: ml(volume),
    target: celsius(target),
    hot: celsius(hot),
    cold: celsius(cold),
    ...more,
  });
const poured = (...args: Parameters<typeof ask>) => {
  const answer = ask(...args);
  if (!answer.ok) throw new Error(explainWater(answer.error));
  return answer.value;
};
const said = (...args: Parameters<typeof ask>) => {
  const answer = ask(...args);
  return answer.ok ? "" : explainWater(answer.error);
};

test("1 L at 49 °C from 60 and 15 °C: 755.6 and 244.4 mL by volume, a little off that by mass: own arithmetic (derived)", () => {
  const { hot, cold } = poured(1000, 49, 60, 15);
  // The shares are exact by mass; each volume then follows its own density.
  const mass = 1000 * waterDensity(celsius(49));
  expect(hot * waterDensity(celsius(60))).toBeCloseTo(0.75556 * mass, 1);
  expect(cold * waterDensity(celsius(15))).toBeCloseTo(0.24444 * mass, 1);
  expect(hot).toBeGreaterThan(755.6);
  expect(cold).toBeLessThan(244.4);
  expect(Math.abs(hot - 755.6)).toBeLessThan(5);
});

test("the aim is the target when nothing else takes heat", () => {
  const answer = poured(1000, 38, 60, 15);
  expect(answer.aim).toBe(38);
  expect(answer.poured).toBe(38);
});

test("a cool vessel asks for a warmer blend, not a warmer aim", () => {
  const plain = poured(800, 49, 60, 15);
  const { hot, aim, poured: blended } = poured(800, 49, 60, 15, { vessel: jug(20, 40) });
  expect(aim).toBe(49);
  expect(blended).toBeCloseTo(49 + (40 * 29) / (800 * waterDensity(celsius(49))), 9);
  expect(hot).toBeGreaterThan(plain.hot);
});

test("a vessel at the aim changes nothing, given in J/K or not at all", () => {
  const vessel = {
    temperature: celsius(40),
    takes: { kind: "joules-per-kelvin", value: 500 },
  } as const;
  expect(poured(500, 40, 60, 15, { vessel }).hot).toBeCloseTo(poured(500, 40, 60, 15).hot, 9);
});

test("cool parts that go in later ask for a warmer aim, and everything lands on the target", () => {
  const later = [at(100, 20), at(50, 22)];
  const { aim } = poured(600, 38, 60, 15, { later });
  const mass = (v: number, measuredAt: number) => v * waterDensity(celsius(measuredAt));
  const water = mass(600, 38);
  const landed =
    (water * aim + mass(100, 20) * 20 + mass(50, 22) * 22) / (water + mass(100, 20) + mass(50, 22));
  expect(landed).toBeCloseTo(38, 9);
  expect(aim).toBeGreaterThan(42);
});

test("vessel and parts together: the blend, the vessel, then the parts", () => {
  const answer = poured(600, 38, 70, 15, { vessel: jug(18, 60), later: [at(200, 20)] });
  const water = 600 * waterDensity(celsius(38));
  const inVessel = (water * answer.poured + 60 * 18) / (water + 60);
  expect(inVessel).toBeCloseTo(answer.aim, 9);
  const parts = 200 * waterDensity(celsius(20));
  const landed = ((water + 60) * answer.aim + parts * 20) / (water + 60 + parts);
  expect(landed).toBeCloseTo(38, 9);
});

test("a target at one supply takes that one alone", () => {
  expect(poured(500, 60, 60, 15).cold).toBeCloseTo(0, 9);
  expect(poured(500, 15, 60, 15).hot).toBeCloseTo(0, 9);
  expect(poured(500, 60, 60, 15).hot).toBeCloseTo(500, 9);
  // Rounding noise in the parts' mean is no reason to refuse.
  expect(poured(10, 40, 40, 15, { later: [at(94, 40), at(33, 40)] }).poured).toBe(40);
});

describe("refusals", () => {
  test("a target outside the supplies is refused with all three temperatures", () => {
    expect(said(1000, 49, 45, 15)).toBe(
      "49 °C (120.2 °F) cannot come from 45 °C (113 °F) and 15 °C (59 °F): heat the hot water further, or aim closer.",
    );
    expect(said(1000, 10, 45, 15)).toContain("cool the cold water further");
  });

  test("parts that need water hotter than there is are refused with what it would take", () => {
    const answer = ask(600, 49, 52, 15, { later: [at(300, 20)] });
    expect(!answer.ok && answer.error).toMatchObject({ kind: "out-of-reach", target: 49, hot: 52 });
    expect(answer.ok ? "" : explainWater(answer.error)).toMatch(
      /49 °C .*takes water of 63\.\d °C .*because of what else it meets/,
    );
  });

  test.each([
    { args: [0, 38, 60, 15], says: "I read 0 mL" },
    { args: [-5, 38, 60, 15], says: "I read -5 mL" },
    { args: [1e9, 38, 60, 15], says: "I go up to 200 L" },
    { args: [500, 38, 300, 15], says: "300 °C (572 °F) for the hot water" },
    { args: [500, 38, 60, -4], says: "-4 °C (24.8 °F) for the cold water" },
    { args: [500, 110, 60, 15], says: "for the target" },
    { args: [500, 38, 15, 60], says: "not hotter than the cold at 60 °C" },
    { args: [500, 38, 38, 38], says: "measure both again" },
  ] as const)("$says", ({ args: [volume, target, hot, cold], says }) => {
    expect(said(volume, target, hot, cold)).toContain(says);
  });

  test.each<{ more: Partial<WaterWanted>; says: string }>([
    { more: { vessel: jug(20, -1) }, says: "I read -1 mL" },
    { more: { vessel: jug(200, 10) }, says: "for the vessel" },
    { more: { later: [at(-20, 20)] }, says: "I read -20 mL" },
    { more: { later: [at(20, 140)] }, says: "for the part that goes in later" },
    { more: { vessel: jug(20, 50), later: [at(20, 20), at(20, -3)] }, says: "-3 °C" },
  ])("$says", ({ more, says }) => {
    expect(said(500, 38, 60, 15, more)).toContain(says);
  });
});

test("what is poured comes to the temperature and the volume asked for", () => {
  const lands = fc.property(
    fc.double({ min: 5, max: 25, noNaN: true }),
    fc.double({ min: 45, max: 95, noNaN: true }),
    fc.double({ min: 0.05, max: 0.95, noNaN: true }),
    fc.double({ min: 50, max: 20_000, noNaN: true }),
    (cold, hot, share, volume) => {
      const target = cold + share * (hot - cold);
      const answer = poured(volume, target, hot, cold);
      const blended = blendTemperature(
        { volume: answer.hot, temperature: celsius(hot) },
        { volume: answer.cold, temperature: celsius(cold) },
      );
      expect(blended.ok && blended.value.temperature).toBeCloseTo(target, 6);
      expect(blended.ok && blended.value.volume / volume).toBeCloseTo(1, 9);
    },
  );
  fc.assert(lands);
});
