import fc from "fast-check";
import { expect, test } from "vitest";
import { volumeIn, volumeTo } from "../units/conversions.ts";
import { millilitres as ml } from "../units/quantity.ts";
import { bothReadings, chainDilutions, dilute, diluteAll, explainDilute } from "./dilute.ts";

const floz = (n: number) => volumeIn(n, "fl oz", "us");
const F32 = "F-32, T-MAX films, developer rows (from memory)";

test.each([
  { total: 500, waterParts: 9, concentrate: 50, water: 450, source: `${F32}: row 1:9` },
  { total: 500, waterParts: 4, concentrate: 100, water: 400, source: `${F32}: row 1:4` },
  { total: 800, waterParts: 7, concentrate: 100, water: 700, source: `${F32}: row 1:7` },
  { total: 1600, waterParts: 15, concentrate: 100, water: 1500, source: `${F32}: row 1:15` },
  { total: 250, waterParts: 0, concentrate: 250, water: 0, source: "arithmetic" },
])("$total mL at 1+$waterParts takes $concentrate mL: $source", (row) => {
  const mix = dilute(ml(row.total), row.waterParts);
  expect(mix).toEqual({
    ok: true,
    value: { total: row.total, concentrate: row.concentrate, water: row.water },
  });
});

test("two US gallons at 1:3 take 64 and 192 fl oz: own arithmetic, notation from F-32 (derived)", () => {
  const mix = dilute(floz(256), 3);
  expect(mix.ok && volumeTo(mix.value.concentrate, "fl oz", "us")).toBeCloseTo(64, 9);
  expect(mix.ok && volumeTo(mix.value.water, "fl oz", "us")).toBeCloseTo(192, 9);
});

test("32 oz and twice as much water make 96; 80 grains then stand at 5/6 an ounce: Practical Photography, para. 505-506 (read)", () => {
  const mix = diluteAll(floz(32), 2);
  const total = mix.ok ? volumeTo(mix.value.total, "fl oz", "us") : Number.NaN;
  expect(total).toBeCloseTo(96, 9);
  expect(mix.ok && volumeTo(mix.value.water, "fl oz", "us")).toBeCloseTo(64, 9);
  expect(80 / total).toBeCloseTo(0.8333, 3);
});

test.each([
  { steps: [3, 3], inAll: 16, source: "J-24, HC-110 developer, dilution A (from memory)" },
  { steps: [3, 7], inAll: 32, source: "J-24, HC-110 developer, dilution B (from memory)" },
  { steps: [3, 11], inAll: 48, source: "J-24, HC-110 developer, dilution E (from memory)" },
  { steps: [99, 99], inAll: 10_000, source: "arithmetic: the most that is taken" },
  { steps: [], inAll: 1, source: "arithmetic: nothing done" },
])("$steps one after the other is $inAll parts in all: $source", ({ steps, inAll }) => {
  expect(chainDilutions(steps)).toEqual({ ok: true, value: inAll - 1 });
});

test("both readings of 1:4 stand side by side", () => {
  const both = bothReadings(ml(1000), 4);
  expect(both).toEqual({
    ok: true,
    value: {
      waterParts: { total: 1000, concentrate: 200, water: 800 },
      partsInAll: { total: 1000, concentrate: 250, water: 750 },
    },
  });
});

test("1:1 in all is undiluted, and one part in half a part is no reading", () => {
  const even = bothReadings(ml(600), 1);
  expect(even.ok && even.value.partsInAll?.concentrate).toBe(600);
  expect(even.ok && even.value.waterParts.concentrate).toBe(300);
  const half = bothReadings(ml(600), 0.5);
  expect(half.ok && half.value.partsInAll).toBeUndefined();
});

test("at least so much concentrate for the load: one roll wants about 237 mL of stock, F-4017/J-78 footnote (from memory)", () => {
  const short = dilute(ml(300), 1, ml(237));
  expect(short).toEqual({
    ok: false,
    error: { kind: "too-weak", concentrate: 150, least: 237, enough: 474 },
  });
  expect(short.ok ? "" : explainDilute(short.error)).toMatch(/150 mL .*needs 237 mL: mix 474 mL/);
  expect(dilute(ml(474), 1, ml(237)).ok).toBe(true);
});

test.each([
  { total: 0, waterParts: 9, says: "I read 0 mL: give an amount above zero" },
  { total: -10, waterParts: 9, says: "I read -10 mL" },
  { total: 300_000, waterParts: 9, says: "I read 300 L, and I go up to 200 L" },
  { total: 500, waterParts: -1, says: "I read -1 parts of water" },
  { total: 500, waterParts: 10_001, says: "I read 10001 parts" },
  { total: 500, waterParts: Number.NaN, says: "give a number from 0 to 10000" },
])("$total mL at 1+$waterParts is refused", ({ total, waterParts, says }) => {
  const mix = dilute(ml(total), waterParts);
  expect(mix.ok ? "" : explainDilute(mix.error)).toContain(says);
  const all = diluteAll(ml(total), waterParts);
  expect(all.ok ? "" : explainDilute(all.error)).toContain(says);
});

test("too far is refused: a total beyond the limit, a chain beyond the parts", () => {
  const vast = diluteAll(ml(1000), 1000);
  expect(!vast.ok && vast.error.kind).toBe("too-large");
  const chain = chainDilutions([200, 200]);
  expect(!chain.ok && chain.error.kind).toBe("bad-parts");
  const negative = chainDilutions([-3, -3]);
  expect(!negative.ok && negative.error.kind).toBe("bad-parts");
  expect(bothReadings(ml(0), 4).ok).toBe(false);
});

const volumes = fc.double({ min: 1, max: 20_000, noNaN: true });

test("concentrate and water add up to the total, in the ratio asked", () => {
  const sums = fc.property(volumes, fc.nat(200), (total, waterParts) => {
    const mix = dilute(ml(total), waterParts);
    if (!mix.ok) throw new Error(explainDilute(mix.error));
    expect(mix.value.concentrate + mix.value.water).toBeCloseTo(total, 6);
    expect(mix.value.water).toBeCloseTo(mix.value.concentrate * waterParts, 6);
  });
  fc.assert(sums);
});

test("from the total to the concentrate and back", () => {
  const back = fc.property(volumes, fc.nat(200), (total, waterParts) => {
    const mix = dilute(ml(total), waterParts);
    const again = mix.ok ? diluteAll(mix.value.concentrate, waterParts) : mix;
    expect(again.ok && again.value.total).toBeCloseTo(total, 6);
  });
  fc.assert(back);
});
