import { expect, test } from "vitest";
import { gardenAnswers } from "../../../test/support/garden-sheet.ts";
import { sheetSchema } from "../process/sheet.ts";
import { answersSchema } from "./answers.ts";
import { buildSheet } from "./build-sheet.ts";
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

test("the answers are shown line by line, each as it can be compared with the paper", () => {
  expect(showAnswers(gardenAnswers)).toEqual([
    "1. name: garden",
    "2. process: C-41",
    "3. measure: millilitres",
    "4. baths: developer, wash",
    "5. developer total: 1 L",
    "6. developer water: 700 mL",
    "7. developer warm: 43 °C (109.4 °F)",
    "8. developer parts: A 100 mL, liquid; B all of it, liquid; C 12 g, powder",
    "9. developer time: exactly 3:25",
    "10. developer temperature: 38.2 °C (100.8 °F) ±0.2 °C",
    "11. developer agitation: first 30 s, then 5 s every 30 s",
    "12. developer capacity: 8 rolls",
    "13. developer keeps: 42 days",
    "14. wash time: at least 3:00",
    "15. wash temperature: not on the sheet",
    "16. wash agitation: not on the sheet",
  ]);
});

test("a paper in ounces is shown in its ounces too, and a half-taught one says what is open", () => {
  const us = showAnswers({ ...gardenAnswers, measure: "us" });
  expect(us[5]).toBe("6. developer water: 700 mL (23.7 US fl oz)");
  const { wash: _, ...bath } = gardenAnswers.bath ?? {};
  expect(showAnswers({ ...gardenAnswers, bath }).at(-3)).toBe("14. wash time: not asked yet");
});

test("one roll and one day are one", () => {
  const developer = { ...gardenAnswers.bath?.developer, capacity: 1, keeps: 0.5 };
  const lines = showAnswers({ ...gardenAnswers, bath: { ...gardenAnswers.bath, developer } });
  expect(lines.slice(11, 13)).toEqual([
    "12. developer capacity: 1 roll",
    "13. developer keeps: 0.5 days",
  ]);
});
