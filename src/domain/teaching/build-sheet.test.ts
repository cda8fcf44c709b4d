import { expect, test } from "vitest";
import { gardenAnswers } from "../../../test/support/garden-sheet.ts";
import { sheetSchema } from "../process/sheet.ts";
import { type Answers, answersSchema, type BathAnswers } from "./answers.ts";
import { buildSheet } from "./build-sheet.ts";
import { questionsOf } from "./questions.ts";
import { showAnswers } from "./show-answers.ts";

const origin = { kind: "sheet", source: "garden" };

test("every figure of a taught sheet names that sheet as its origin", () => {
  const sheet = buildSheet("sheet-1", gardenAnswers);
  const origins = JSON.stringify(sheet).match(/"origin":\{[^}]*\}/g) ?? [];
  expect(origins.length).toBeGreaterThan(12);
  expect(new Set(origins)).toEqual(new Set([`"origin":${JSON.stringify(origin)}`]));
});

test("what was read is what stands on the sheet", () => {
  const { baths, ...head } = buildSheet("sheet-1", gardenAnswers);
  expect(head).toMatchObject({ id: "sheet-1", name: "garden", process: "C-41", invented: false });
  expect(baths[0]).toMatchObject({
    name: "developer",
    sense: "exact",
    mix: {
      total: { value: 1000 },
      startWater: { value: 700 },
      temperature: { value: 43 },
      parts: [
        { name: "A", form: "liquid", amount: { ml: 100 } },
        { name: "B", form: "liquid" },
        { name: "C", form: "powder", amount: { g: 12 } },
      ],
    },
    time: { value: 205 },
    temperature: { value: 38.2 },
    tolerance: { value: 0.2 },
    agitation: { initial: { value: 30 }, every: { value: 30 }, each: { value: 5 } },
    capacity: { value: 8 },
    keeps: { value: 42 },
  });
});

test("what the paper does not say is not on the sheet", () => {
  const [, wash] = buildSheet("sheet-1", gardenAnswers).baths;
  expect(wash).toEqual({
    name: "wash",
    kind: "wash",
    sense: "at least",
    time: { value: 180, origin },
  });
});

test("a bath that turned out not to be mixed from parts has no mix left", () => {
  const developer = { ...gardenAnswers.bath?.developer, total: null };
  const answers = { ...gardenAnswers, bath: { ...gardenAnswers.bath, developer } };
  expect(buildSheet("sheet-1", answers).baths[0]).not.toHaveProperty("mix");
});

test.each([
  { measure: "metric", country: undefined },
  { measure: "us", country: "us" },
  { measure: "imperial", country: "imperial" },
] as const)("a paper in $measure is of country $country", ({ measure, country }) => {
  expect(buildSheet("sheet-1", { ...gardenAnswers, measure }).country).toBe(country);
});

test("a taught sheet and its answers come back from storage as they were", () => {
  const sheet = buildSheet("sheet-1", gardenAnswers);
  expect(sheetSchema.parse(JSON.parse(JSON.stringify(sheet)))).toEqual(sheet);
  expect(answersSchema.parse(JSON.parse(JSON.stringify(gardenAnswers)))).toEqual(gardenAnswers);
});

/** The lines of some questions, without their numbers. */
const linesOf = (answers: Answers, ...labels: readonly string[]) =>
  showAnswers(answers)
    .map((line) => line.replace(/^\d+\. /, ""))
    .filter((line) => labels.some((label) => line.startsWith(`${label}: `)));

test("the answers are shown line by line, each as it can be compared with the paper", () => {
  const lines = [
    "name: garden",
    "process: C-41",
    "measure: millilitres",
    "baths: developer, wash",
    "developer total: 1 L",
    "developer water: 700 mL",
    "developer warm: 43 °C (109.4 °F)",
    "developer parts: A 100 mL, liquid; B all of it, liquid; C 12 g, powder",
    "developer time: exactly 3:25",
    "developer temperature: 38.2 °C (100.8 °F) ±0.2 °C",
    "developer agitation: first 30 s, then 5 s every 30 s",
    "developer capacity: 8 rolls",
    "developer keeps: 42 days",
    "wash time: at least 3:00",
    "wash temperature: not on the sheet",
    "wash agitation: not on the sheet",
  ];
  const labels = lines.map((line) => line.slice(0, line.indexOf(":")));
  expect(linesOf(gardenAnswers, ...labels)).toEqual(lines);
});

test("the lines are numbered in the order they are asked, so that one can be corrected", () => {
  const shown = showAnswers(gardenAnswers);
  expect(shown).toHaveLength(questionsOf(gardenAnswers).length);
  for (const [at, line] of shown.entries()) expect(line.startsWith(`${at + 1}. `)).toBe(true);
});

test("a paper in ounces is shown in its ounces too, and a half-taught one says what is open", () => {
  const us = linesOf({ ...gardenAnswers, measure: "us" }, "developer water");
  expect(us).toEqual(["developer water: 700 mL (23.7 US fl oz)"]);
  const { wash: _, ...bath } = gardenAnswers.bath ?? {};
  expect(linesOf({ ...gardenAnswers, bath }, "wash time")).toEqual(["wash time: not asked yet"]);
});

test("one roll and one day are one", () => {
  const of = (change: BathAnswers) => {
    const developer = { ...gardenAnswers.bath?.developer, ...change };
    const answers = { ...gardenAnswers, bath: { ...gardenAnswers.bath, developer } };
    return linesOf(answers, "developer capacity", "developer keeps");
  };
  expect(of({ capacity: 1, keeps: 1 })).toEqual([
    "developer capacity: 1 roll",
    "developer keeps: 1 day",
  ]);
  expect(of({ capacity: 2.5, keeps: 0.5 })).toEqual([
    "developer capacity: 2.5 rolls",
    "developer keeps: 0.5 days",
  ]);
});
