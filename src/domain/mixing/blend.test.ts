import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { volumeIn, volumeTo } from "../units/conversions.ts";
import { mass, sizeOf, volume } from "./amount.ts";
import { blend, explainBlend, strengthOf, weaken, weakenAll } from "./blend.ts";
import type { Percent, PercentKind } from "./percent.ts";

const of = <K extends PercentKind>(kind: K, value: number): Percent<K> => ({ kind, value });
const CB170 = "The Darkroom Cookbook, 3rd ed., p. 170, table, by weight (read)";

test("32 fl oz of 28 % acid from 99.5 % takes 9.0 acid and 23.0 water: Subcourse SS0513, Photographic Quality Control, p. 22 (read)", () => {
  const total = volume(volumeIn(32, "fl oz", "us"));
  const mixed = weaken(of("v/v", 99.5), of("v/v", 28), total);
  if (!mixed.ok) throw new Error(explainBlend(mixed.error));
  expect(volumeTo(mixed.value.stock.ml, "fl oz", "us")).toBeCloseTo(9.0, 1);
  expect(volumeTo(mixed.value.water.ml, "fl oz", "us")).toBeCloseTo(23.0, 1);
});

test.each([
  { target: 28, acid: 28, water: 71.5, printed: 71, source: CB170 },
  { target: 36, acid: 36, water: 63.5, printed: 63, source: CB170 },
  { target: 56, acid: 56, water: 43.5, printed: 43, source: CB170 },
])(
  "$target % from 99.5 % is $acid parts acid to $water water, printed $printed: $source",
  (row) => {
    const square = blend(of("w/w", 99.5), of("w/w", 0), of("w/w", row.target), mass(1000));
    if (!square.ok) throw new Error(explainBlend(square.error));
    expect(square.value.parts).toEqual({ a: row.acid, b: row.water });
    expect(Math.floor(square.value.parts.b)).toBe(row.printed);
    expect(square.value.a.g).toBeCloseTo((1000 * row.acid) / 99.5, 9);
  },
);

test("150 mL glacial and 400 mL water are 27.1 % by volume: The Darkroom Cookbook, 3rd ed., p. 170, shop rule (read)", () => {
  const found = strengthOf(of("v/v", 99.5), volume(150), of("v/v", 0), volume(400));
  expect(found.ok && Math.abs(found.value.value - 27.1)).toBeLessThanOrEqual(0.1);
});

test("48 mL of 28 % in a litre is 1.344 %, inside the 1-2 % of acid stops: J-1, SB-1 (from memory); The Darkroom Cookbook, p. 104 (read)", () => {
  const found = strengthOf(of("v/v", 28), volume(48), of("v/v", 0), volume(952));
  const strength = found.ok ? found.value.value : Number.NaN;
  expect(strength).toBeCloseTo(1.344, 9);
  expect(strength).toBeGreaterThan(1);
  expect(strength).toBeLessThan(2);
});

test("all of a stock goes as far as its strength allows", () => {
  expect(weakenAll(of("w/v", 20), of("w/v", 5), volume(100))).toEqual({
    ok: true,
    value: { stock: volume(100), water: volume(300), total: volume(400) },
  });
});

test("two solutions, either way round", () => {
  const strongFirst = blend(of("w/v", 20), of("w/v", 5), of("w/v", 8), volume(300));
  expect(strongFirst.ok && strongFirst.value).toEqual({
    a: volume(60),
    b: volume(240),
    parts: { a: 3, b: 12 },
  });
  const weakFirst = blend(of("w/v", 5), of("w/v", 20), of("w/v", 8), volume(300));
  expect(weakFirst.ok && weakFirst.value).toMatchObject({ a: volume(240), b: volume(60) });
});

test("a target equal to one supply takes that one alone", () => {
  const same = blend(of("w/v", 20), of("w/v", 5), of("w/v", 20), volume(300));
  expect(same.ok && same.value).toMatchObject({ a: volume(300), b: volume(0) });
});

describe("kinds are kept apart", () => {
  test("by the types", () => {
    // @ts-expect-error w/v does not mix with v/v
    expect(blend(of("w/v", 20), of("v/v", 5), of("w/v", 8), volume(300)).ok).toBe(false);
    // @ts-expect-error w/w is worked in grams
    expect(weaken(of("w/w", 20), of("w/w", 5), volume(300)).ok).toBe(false);
    // @ts-expect-error v/v is worked in mL
    expect(weaken(of("v/v", 20), of("v/v", 5), mass(300)).ok).toBe(false);
  });

  test("and when the kind is only known at run time", () => {
    const a: Percent = of("w/v", 20);
    const b: Percent = of("v/v", 5);
    const mixed = blend(a, b, a, volume(300));
    expect(mixed.ok ? "" : explainBlend(mixed.error)).toMatch(/w\/v and v\/v together/);
    const byWeight: Percent = of("w/w", 20);
    const wrong = weaken(byWeight, of("w/w", 5), volume(300));
    expect(wrong.ok ? "" : explainBlend(wrong.error)).toMatch(/in grams, or the density/);
    const byVolume: Percent = of("w/v", 20);
    const heavy = weakenAll(byVolume, of("w/v", 5), mass(300));
    expect(heavy.ok ? "" : explainBlend(heavy.error)).toContain("give the amount in mL");
  });
});

const vv = (value: number) => of("v/v", value);
test.each([
  {
    given: blend(vv(20), vv(5), vv(30), volume(300)),
    says: "30 % v/v lies outside 5 % v/v and 20 % v/v",
  },
  { given: blend(vv(20), vv(5), vv(4), volume(300)), says: "4 % v/v lies outside" },
  { given: blend(vv(20), vv(20), vv(20), volume(300)), says: "Both are 20 % v/v" },
  { given: blend(vv(20), vv(5), vv(8), volume(0)), says: "I read 0 mL" },
  { given: blend(vv(20), vv(5), vv(8), volume(-1)), says: "I read -1 mL" },
  { given: blend(vv(20), vv(5), vv(8), volume(1e7)), says: "I go up to 200 L" },
  { given: weaken(vv(20), vv(0), volume(300)), says: "plain water" },
  {
    given: weaken(vv(20), vv(30), volume(300)),
    says: "30 % v/v lies outside 0 % v/v and 20 % v/v",
  },
  { given: weakenAll(vv(20), vv(0), volume(300)), says: "plain water" },
  { given: weakenAll(vv(20), vv(30), volume(300)), says: "30 % v/v lies outside" },
  { given: weakenAll(vv(20), vv(5), volume(0)), says: "I read 0 mL" },
  { given: weakenAll(vv(90), vv(0.01), volume(1000)), says: "I read 9000 L" },
])("refused: $says", ({ given, says }) => {
  expect(given.ok ? "" : explainBlend(given.error)).toContain(says);
});

test("strengthOf refuses an empty side", () => {
  const found = strengthOf(vv(20), volume(10), vv(5), volume(0));
  expect(found.ok ? "" : explainBlend(found.error)).toContain("I read 0 mL");
});

test("a blend of two supplies adds up, lies between them, and has the strength asked for", () => {
  const strengths = fc.tuple(
    fc.double({ min: 0, max: 40, noNaN: true }),
    fc.double({ min: 50, max: 100, noNaN: true }),
    fc.double({ min: 0.01, max: 0.99, noNaN: true }),
    fc.double({ min: 1, max: 10_000, noNaN: true }),
  );
  const holds = fc.property(strengths, ([weak, strong, share, total]) => {
    const target = weak + share * (strong - weak);
    const mixed = blend(vv(strong), vv(weak), vv(target), volume(total));
    if (!mixed.ok) throw new Error(explainBlend(mixed.error));
    const { a, b } = mixed.value;
    expect(sizeOf(a) + sizeOf(b)).toBeCloseTo(total, 6);
    expect(sizeOf(a)).toBeGreaterThan(0);
    expect(sizeOf(b)).toBeGreaterThan(0);
    const back = strengthOf(vv(strong), a, vv(weak), b);
    expect(back.ok && back.value.value).toBeCloseTo(target, 6);
  });
  fc.assert(holds);
});

test("outside the two supplies there is never an answer", () => {
  const outside = fc.property(
    fc.double({ min: 5, max: 40, noNaN: true }),
    fc.double({ min: 50, max: 90, noNaN: true }),
    fc.double({ min: 0.01, max: 4, noNaN: true }),
    fc.boolean(),
    (weak, strong, off, above) => {
      const target = vv(above ? strong + off : weak - off);
      expect(blend(vv(strong), vv(weak), target, volume(100)).ok).toBe(false);
    },
  );
  fc.assert(outside);
});
