import { expect, test } from "vitest";
import { listeningOf } from "../conversation/listening.ts";
import { isWeak, showOrigin } from "../domain/origin.ts";
import { planSheet } from "../domain/process/plan-sheet.ts";
import { explainSharing, sharingTrouble } from "../domain/process/shared-baths.ts";
import { type Bath, bathsCalled, type Sheet, sheetSchema } from "../domain/process/sheet.ts";
import { newBench } from "../domain/session/bench.ts";
import { toFahrenheit } from "../domain/units/conversions.ts";
import { celsius, instant, seconds } from "../domain/units/quantity.ts";
import { nameReader } from "../language/readers/names.ts";
import { toWords } from "../language/words.ts";
import { shippedSheets } from "./sheets.ts";

const NAVY = "published: NAVEDTRA 14209, Photography (Basic), small-tank steps 3-6 (read)";
const NAVY_DEGREES = "published: NAVEDTRA 14209, Photography (Basic), p. 10-15 (read)";
const BOOK = (page: number) => `published: The Darkroom Cookbook, 3rd ed., p. ${page} (read)`;
const STEPS = "published: E-6 process, step list (read-secondary)";
const Z119 = "from memory, not read: Z-119, cycle table";
const HAND = "published: Process ECP-2A and ECN-2 table for hand processing, overview table (read)";
const H24 = "from memory, not read: H-24 Module 7, mechanical specifications";
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
const baths = (id: string) =>
  sheetCalled(id).baths.map(({ name, sense, time }) => [name, sense, time?.value]);

test("black and white: developer, stop, fixer, wash, wetting agent; only the stop's time is published", () => {
  expect(baths("black-and-white")).toEqual([
    ["developer", "exact", undefined],
    ["stop", "at least", 15],
    ["fixer", "at least", undefined],
    ["wash", "at least", undefined],
    ["wetting agent", "at least", undefined],
  ]);
});

test("black and white, developer: 30 s, then 5 s every minute, 10 s to pour out: NAVEDTRA 14209, small-tank steps 3-6 (read)", () => {
  const { agitation, drain } = bathOf("black-and-white", "developer");
  expect(told(agitation?.initial)).toEqual([30, NAVY]);
  expect(told(agitation?.every)).toEqual([60, NAVY]);
  expect(told(agitation?.each)).toEqual([5, NAVY]);
  expect(told(drain)).toEqual([10, NAVY]);
});

test.each(["developer", "stop", "fixer", "wash"])(
  "black and white, %s at 68 °F, 20 °C: NAVEDTRA 14209, p. 10-15 (read)",
  (name) => {
    const { temperature } = bathOf("black-and-white", name);
    expect(told(temperature)).toEqual([20, NAVY_DEGREES]);
    expect(temperature?.printed).toBe("68 °F");
    expect(toFahrenheit(celsius(20))).toBeCloseTo(68, 9);
  },
);

test("an acid stop acts in about 15 s: The Darkroom Cookbook, 3rd ed., p. 104 (read)", () => {
  expect(told(bathOf("black-and-white", "stop").time)).toEqual([15, BOOK(104)]);
});

test("acid fixer: 20 rolls a litre, two months at most: The Darkroom Cookbook, 3rd ed., p. 108 (read)", () => {
  const { capacity, capacityPerLitre, keeps } = bathOf("black-and-white", "fixer");
  expect(told(capacityPerLitre)).toEqual([20, BOOK(108)]);
  expect(capacity).toBeUndefined();
  expect(told(keeps)).toEqual([60, BOOK(108)]);
});

test.each([
  { name: "first developer", sense: "exact", time: [360, STEPS] },
  { name: "first wash", sense: "exact", time: [120, STEPS] },
  { name: "reversal", sense: "at least", time: [120, Z119] },
  { name: "colour developer", sense: "exact", time: [360, Z119] },
  { name: "pre-bleach", sense: "at least", time: [120, Z119] },
  { name: "bleach", sense: "at least", time: [360, Z119] },
  { name: "fixer", sense: "at least", time: [240, Z119] },
  { name: "final wash", sense: "at least", time: [240, Z119] },
  { name: "final rinse", sense: "at least", time: [60, Z119] },
])("six-bath reversal, $name: $sense $time", ({ name, sense, time }) => {
  const bath = bathOf("reversal-six-bath", name);
  expect(bath.sense).toBe(sense);
  expect(told(bath.time)).toEqual(time);
});

test("six-bath reversal: first developer and first wash at 37.8 °C, 100.0 °F: E-6 process, step list (read-secondary)", () => {
  for (const name of ["first developer", "first wash"]) {
    const { temperature } = bathOf("reversal-six-bath", name);
    expect(told(temperature)).toEqual([37.8, STEPS]);
    expect(temperature?.printed).toBe("100.0 °F");
  }
  expect(toFahrenheit(celsius(37.8))).toBeCloseTo(100, 1);
});

test("six-bath reversal: ten steps with drying, no wash between reversal and colour developer, light after 1 min: SS0514, p. 4-3 (read)", () => {
  const names = sheetCalled("reversal-six-bath").baths.map(({ name }) => name);
  expect(names.length + 1).toBe(10);
  expect(names.indexOf("colour developer")).toBe(names.indexOf("reversal") + 1);
  expect(sheetCalled("reversal-six-bath").about).toContain("After one minute in the reversal bath");
});

test("three-bath reversal: first developer, colour developer, blix, and no time of ours: E-6 process, process variations (read-secondary)", () => {
  const sheet = sheetCalled("reversal-three-bath");
  const working = sheet.baths.filter(({ kind }) => kind !== "wash");
  expect(working.map(({ kind }) => kind)).toEqual(["first developer", "colour developer", "blix"]);
  expect(sheet.baths.every(({ time }) => time === undefined)).toBe(true);
});

test.each([
  { name: "prebath", time: [60, HAND], at: [27, HAND], band: [1, HAND] },
  { name: "backing removal", time: [30, HAND], at: [27, HAND], band: [3, HAND] },
  { name: "developer", time: [180, H24], at: [41.1, HAND], band: [0.1, HAND] },
  { name: "stop", time: [30, H24], at: undefined, band: undefined },
  { name: "first wash", time: [30, H24], at: undefined, band: undefined },
  { name: "bleach", time: [180, H24], at: undefined, band: undefined },
  { name: "second wash", time: [60, H24], at: undefined, band: undefined },
  { name: "fixer", time: [120, H24], at: undefined, band: undefined },
  { name: "final wash", time: [120, H24], at: undefined, band: undefined },
  { name: "final rinse", time: undefined, at: undefined, band: undefined },
])("motion-picture negative, $name: $time at $at ± $band", ({ name, time, at, band }) => {
  const bath = bathOf("motion-picture-negative", name);
  expect(told(bath.time)).toEqual(time);
  expect(told(bath.temperature)).toEqual(at);
  expect(told(bath.tolerance)).toEqual(band);
});

test("motion-picture negative: a final rinse of 10 s (from memory) is all pouring out in a tank, so none is shipped", () => {
  expect(bathOf("motion-picture-negative", "final rinse").time).toBeUndefined();
});

test("film with a black backing is refused from shared baths, with the reason, and from bottles of unknown process", () => {
  const sheet = sheetCalled("motion-picture-negative");
  const shared = sharingTrouble(sheet, [
    { name: "Dora", process: "C-41" },
    { name: "Otter", process: "ECN-2" },
    { name: "Lantern", process: undefined },
  ]);
  expect(shared?.bottles).toEqual(["Dora", "Lantern"]);
  expect(shared && explainSharing(shared)).toBe(
    "Stop. Film of the motion picture negative sheet does not go into Dora and Lantern: its black backing comes off in the bath, spoils the developer and sticks to every film that follows. Mix baths of its own by that sheet, or take other film.",
  );
  expect(sharingTrouble(sheet, [{ name: "Otter", process: "ECN-2" }])).toBeUndefined();
  expect(sharingTrouble(sheet, [])).toBeUndefined();
});

test("no other sheet refuses shared baths", () => {
  for (const sheet of shippedSheets) {
    expect(sheet.shared !== undefined).toBe(sheet.id === "motion-picture-negative");
    expect(sharingTrouble(sheet, [{ name: "Dora", process: "other" }]) !== undefined).toBe(
      sheet.shared !== undefined,
    );
  }
});

test("agitation without a source says so: common practice, no source", () => {
  for (const id of ["reversal-six-bath", "reversal-three-bath", "motion-picture-negative"]) {
    for (const { agitation } of sheetCalled(id).baths) {
      if (agitation !== undefined) expect(showOrigin(agitation.initial.origin)).toBe(HABIT);
    }
  }
});

test.each(shippedSheets)("$id plans every bath, or asks for the times it lacks", (sheet) => {
  const planned = planSheet(sheet);
  if (planned.kind === "no-times") {
    expect(sheet.id).toBe("quart-outline");
    return;
  }
  const missing = sheet.baths.filter(({ time }) => time === undefined);
  if (missing.length > 0) expect(planned).toEqual({ kind: "ask-times", baths: missing });
  const times = Object.fromEntries(missing.map(({ name }) => [name, seconds(240)]));
  const whole = planSheet(sheet, { times });
  expect(whole.kind).toBe("stages");
  if (whole.kind !== "stages") return;
  expect(whole.stages.map(({ bath }) => bath)).toEqual(sheet.baths.map(({ name }) => name));
  for (const stage of whole.stages) {
    expect(stage.timeOrigin.kind === "told").toBe(stage.bath in times);
    expect(stage.time).toBeGreaterThan(stage.drain);
  }
});

test("a mixing outline has no times, and a time that is all pouring out is trouble", () => {
  expect(planSheet(sheetCalled("quart-outline"))).toEqual({ kind: "no-times" });
  const short = { developer: seconds(9), fixer: seconds(60), wash: seconds(60) };
  const times = { ...short, "wetting agent": seconds(60) };
  expect(planSheet(sheetCalled("black-and-white"), { times })).toEqual({
    kind: "trouble",
    trouble: { kind: "too-short", bath: "developer", time: 9, drain: 10 },
  });
});

test("a temperature said with a process is the first developer's alone", () => {
  const planned = planSheet(sheetCalled("reversal-six-bath"), { temperature: celsius(37.5) });
  if (planned.kind !== "stages") throw new Error(planned.kind);
  expect(planned.stages.map(({ temperature }) => temperature).slice(0, 4)).toEqual([
    37.5,
    37.8,
    undefined,
    undefined,
  ]);
});

test("weak figures are known as weak: the plan can name them", () => {
  const weak = (id: string) =>
    sheetCalled(id)
      .baths.filter(({ time }) => time !== undefined && isWeak(time.origin))
      .map(({ name }) => name);
  expect(weak("black-and-white")).toEqual([]);
  expect(weak("reversal-six-bath")).not.toContain("first developer");
  expect(weak("motion-picture-negative")).toContain("developer");
});

test("every sheet answers to each of its words as they are heard, and to no other's", () => {
  const listening = listeningOf(newBench("test", "Europe/Lisbon"), instant(0));
  const read = nameReader("sheet");
  for (const { id, name, called } of shippedSheets) {
    for (const word of [name, ...called]) {
      const { words } = toWords(word);
      const whole = read(words, 0, listening).filter(({ next }) => next === words.length);
      expect([...new Set(whole.map(({ value }) => value))], word).toEqual([id]);
    }
  }
});

test("a bath's words find it: pre-bleach is a conditioner, a final rinse a stabilizer", () => {
  const six = sheetCalled("reversal-six-bath");
  expect(bathsCalled(six, "conditioner").map(({ name }) => name)).toEqual(["pre-bleach"]);
  expect(bathsCalled(six, "stabilizer").map(({ name }) => name)).toEqual(["final rinse"]);
  expect(bathsCalled(six, "developer")).toHaveLength(2);
});

test("names of baths are unique on their sheet, and sheets come back from storage", () => {
  for (const sheet of shippedSheets) {
    const names = sheet.baths.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(sheetSchema.parse(JSON.parse(JSON.stringify(sheet)))).toEqual(sheet);
  }
});
