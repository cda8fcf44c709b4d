import { expect, test } from "vitest";
import { isWeak, showOrigin } from "../domain/origin.ts";
import { type Bath, type Sheet, sheetSchema } from "../domain/process/sheet.ts";
import { toFahrenheit, volumeTo } from "../domain/units/conversions.ts";
import { celsius, millilitres } from "../domain/units/quantity.ts";
import { shippedSheets } from "./sheets.ts";

const Z131 = "published: Z-131, Minilab Processors, Table 4-1 (read)";
const TANK = "from memory, not read: Z-131, small-tank table";
const SS0514 = "published: SS0514 Basic Color Photography, p. 2-13, para. b (read)";
const HABIT = "common practice, no source";

function sheetCalled(id: string): Sheet {
  const sheet = shippedSheets.find((one) => one.id === id);
  if (sheet === undefined) throw new Error(`no sheet ${id}`);
  return sheet;
}

function bathOf(id: string, name: string): Bath {
  const bath = sheetCalled(id).baths.find((one) => one.name === name);
  if (bath === undefined) throw new Error(`no bath ${name} on ${id}`);
  return bath;
}

type Told = { readonly value: number; readonly origin: Parameters<typeof showOrigin>[0] };
const told = (figure: Told | undefined) =>
  figure === undefined ? undefined : [figure.value, showOrigin(figure.origin)];

test.each([
  { name: "developer", sense: "exact", time: [195, Z131] },
  { name: "bleach", sense: "at least", time: [390, TANK] },
  { name: "first wash", sense: "at least", time: [195, TANK] },
  { name: "fixer", sense: "at least", time: [390, TANK] },
  { name: "second wash", sense: "at least", time: [195, TANK] },
  { name: "stabilizer", sense: "at least", time: [90, TANK] },
])("colour negative, $name: $sense $time", ({ name, sense, time }) => {
  const bath = bathOf("colour-negative", name);
  expect(bath.sense).toBe(sense);
  expect(told(bath.time)).toEqual(time);
});

test("the colour-negative baths come in the order of the small-tank table: Z-131, small-tank table (from memory)", () => {
  expect(sheetCalled("colour-negative").baths.map(({ name }) => name)).toEqual([
    "developer",
    "bleach",
    "first wash",
    "fixer",
    "second wash",
    "stabilizer",
  ]);
});

test("developer at 37.8 °C ±0.15, 100.0 °F ±0.25: Z-131, Minilab Processors, Table 4-1 (read)", () => {
  const { temperature, tolerance } = bathOf("colour-negative", "developer");
  expect(told(temperature)).toEqual([37.8, Z131]);
  expect(told(tolerance)).toEqual([0.15, Z131]);
  expect([temperature?.printed, tolerance?.printed]).toEqual(["100.0 °F", "±0.25 °F"]);
  expect(toFahrenheit(celsius(temperature?.value ?? 0))).toBeCloseTo(100, 1);
});

test.each(["bleach", "first wash", "fixer", "second wash", "stabilizer"])(
  "%s at 38 ±3 °C, 100 ±5 °F: Z-131, Minilab Processors, Table 4-1 (read)",
  (name) => {
    const { temperature, tolerance } = bathOf("colour-negative", name);
    expect(told(temperature)).toEqual([38, Z131]);
    expect(told(tolerance)).toEqual([3, Z131]);
  },
);

test("the first 30 s continuous, the last 10 s drain: SS0514 Basic Color Photography, p. 2-13 (read)", () => {
  for (const { agitation, drain } of sheetCalled("colour-negative").baths) {
    expect(told(drain)).toEqual([10, SS0514]);
    if (agitation !== undefined) expect(told(agitation.initial)).toEqual([30, SS0514]);
  }
});

test("the later agitation has no source and says so: SS0514, Figure 2-6 is a picture; common practice, no source", () => {
  const { agitation } = bathOf("colour-negative", "developer");
  expect(told(agitation?.every)).toEqual([30, HABIT]);
  expect(told(agitation?.each)).toEqual([5, HABIT]);
});

test.each([
  { name: "developer", start: 20, degrees: 120 },
  { name: "blix", start: 18, degrees: undefined },
  { name: "stabilizer", start: 30, degrees: undefined },
])(
  "quart outline, $name: $start US fl oz made up to 32: common practice, no source",
  ({ name, start, degrees }) => {
    const { mix } = bathOf("quart-outline", name);
    const ounces = (ml: number | undefined) => volumeTo(millilitres(ml ?? 0), "fl oz", "us");
    expect(ounces(mix?.startWater.value)).toBeCloseTo(start, 9);
    expect(ounces(mix?.total.value)).toBeCloseTo(32, 9);
    expect(mix && showOrigin(mix.startWater.origin)).toBe(HABIT);
    expect(mix && showOrigin(mix.total.origin)).toBe(HABIT);
    if (degrees === undefined) expect(mix?.temperature).toBeUndefined();
    else expect(toFahrenheit(celsius(mix?.temperature?.value ?? 0))).toBeCloseTo(degrees, 9);
  },
);

test("a quart outline knows no part's volume: kits differ, take them from the label (common practice, no source)", () => {
  for (const { mix } of sheetCalled("quart-outline").baths) {
    expect(mix?.parts.every(({ amount }) => amount === undefined)).toBe(true);
  }
});

test("only the demo is invented, and it says so at every figure", () => {
  for (const sheet of shippedSheets) {
    const invented = JSON.stringify(sheet).includes('"kind":"invented"');
    expect(invented).toBe(sheet.invented);
    expect(sheet.invented).toBe(sheet.id === "demo");
  }
  const origins = JSON.stringify(sheetCalled("demo").baths).match(/"kind":"[^"]+","source"/g) ?? [];
  expect(new Set(origins)).toEqual(new Set(['"kind":"invented","source"']));
});

test("no invented figure is one of the published cycle: a demo must never pass for a real sheet", () => {
  const published = sheetCalled("colour-negative").baths.map(({ time }) => time?.value);
  for (const { time } of sheetCalled("demo").baths) expect(published).not.toContain(time?.value);
});

test("what comes from memory is marked weak, what was read is not", () => {
  expect(isWeak(bathOf("colour-negative", "bleach").time?.origin ?? { kind: "told" })).toBe(true);
  expect(isWeak(bathOf("colour-negative", "developer").time?.origin ?? { kind: "told" })).toBe(
    false,
  );
});

test("every sheet is told by its own words alone", () => {
  const words = shippedSheets.flatMap(({ name, called }) => [name, ...called]);
  expect(new Set(words).size).toBe(words.length);
});

test("a sheet read back from storage is the same sheet", () => {
  for (const sheet of shippedSheets) {
    expect(sheetSchema.parse(JSON.parse(JSON.stringify(sheet)))).toEqual(sheet);
  }
});
