import { expect, test } from "vitest";
import { bottleOf, developerOf } from "../../../test/support/bottles.ts";
import { capacityRows } from "../../data/capacity.ts";
import { volumeIn } from "../units/conversions.ts";
import { millilitres, units } from "../units/quantity.ts";
import { capacityOf } from "./capacity.ts";

const bw = "black-and-white";
const fixer = (ml: number) =>
  capacityOf(bottleOf({ bath: "fixer", volume: millilitres(ml) }), undefined, bw, capacityRows);

test("a litre of acid fixer does 20 rolls: The Darkroom Cookbook, 3rd ed., p. 108 (read)", () => {
  expect(fixer(1000)?.value).toBe(20);
  expect(fixer(1000)?.estimated).toBe(true);
});

test("4 L do 80 rolls; a US gallon, which the source treats as equal, 75.7: p. 108 (read)", () => {
  expect(fixer(4000)?.value).toBe(80);
  expect(fixer(volumeIn(1, "gallon", "us"))?.value).toBeCloseTo(75.7, 1);
});

test("a litre of acid rinse does about 12 rolls: The Darkroom Cookbook, 3rd ed., p. 268 (read)", () => {
  expect(capacityOf(bottleOf({ bath: "stop" }), undefined, bw, capacityRows)?.value).toBe(12);
});

test("a black-and-white rule says nothing about colour, or about a process nobody named", () => {
  const bottle = bottleOf({ bath: "fixer" });
  expect(capacityOf(bottle, undefined, "C-41", capacityRows)).toBeUndefined();
  expect(capacityOf(bottle, undefined, undefined, capacityRows)).toBeUndefined();
});

test("the sheet's figure is for a batch: a smaller bottle does less, a larger one no more", () => {
  const bath = developerOf({ capacity: { value: units(8), origin: { kind: "invented" } } });
  const of = (ml: number) =>
    capacityOf(bottleOf({ volume: millilitres(ml) }), bath, "C-41", capacityRows)?.value;
  expect([of(1000), of(500), of(1200)]).toEqual([8, 4, 8]);
});

test("a figure for a litre goes by what the bottle holds, and outranks the rule of thumb", () => {
  const { capacity: _, ...bath } = developerOf();
  const perLitre = { value: units(12), origin: { kind: "invented" } } as const;
  const of = (ml: number, change: Parameters<typeof developerOf>[0] = {}) =>
    capacityOf(
      bottleOf({ volume: millilitres(ml) }),
      { ...bath, kind: "fixer", capacityPerLitre: perLitre, ...change },
      bw,
      capacityRows,
    );
  expect(of(1000)).toEqual({ value: 12, origin: perLitre.origin, estimated: false });
  expect([of(500)?.value, of(2500)?.value]).toEqual([6, 30]);
  const batch = { value: units(8), origin: { kind: "sheet" } } as const;
  expect(of(1000, { capacity: batch })?.value).toBe(8);
});

test("a sheet without a batch volume means this bottle", () => {
  const { mix: _, ...bath } = developerOf();
  expect(
    capacityOf(bottleOf({ volume: millilitres(500) }), bath, "C-41", capacityRows)?.value,
  ).toBe(8);
});
