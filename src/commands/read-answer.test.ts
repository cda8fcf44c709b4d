import { expect, test } from "vitest";
import { gardenAnswers } from "../../test/support/garden-sheet.ts";
import { quietBench } from "../../test/support/reading.ts";
import type { Measure } from "../domain/teaching/answers.ts";
import { questionsOf } from "../domain/teaching/questions.ts";
import { differenceFromFahrenheit, fromFahrenheit, volumeIn } from "../domain/units/conversions.ts";
import { readAnswer } from "./read-answer.ts";

const REFUSED = "refused";

/** What an answer is read as; the bench itself has no habits, as the paper decides. */
function read(id: string, text: string, measure: Measure = "metric"): unknown {
  const answers = { ...gardenAnswers, measure };
  const question = questionsOf(answers).find((one) => one.id === id);
  if (question === undefined) throw new Error(`no question ${id}`);
  const reading = readAnswer(question, text, answers, quietBench);
  if (reading.ok) return reading.value;
  expect(reading.error).toMatch(/[.?]$/);
  expect(reading.error.length).toBeLessThan(200);
  return REFUSED;
}

const table = (rows: Readonly<Record<string, unknown>>) => Object.entries(rows);

test.each(table({ garden: "garden", "Saltmarsh Two": "Saltmarsh Two", skip: REFUSED }))(
  "name: %s",
  (said, value) => {
    expect(read("name", said)).toEqual(value);
  },
);

test.each(
  table({
    yes: REFUSED,
    next: REFUSED,
    "38.5": REFUSED,
    "3:15": REFUSED,
    "2026 quart": "2026 quart",
  }),
)("what is said at the sink, or a figure alone, names no sheet: %s", (said, value) => {
  expect(read("name", said)).toEqual(value);
});

test("a name longer than a breath is refused", () => {
  expect(read("name", "what should i call it")).toBe(REFUSED);
  expect(read("name", "one two three four five six")).toBe(REFUSED);
  expect(read("name", "x".repeat(41))).toBe(REFUSED);
});

test.each(
  table({
    "C-41": "C-41",
    c41: "C-41",
    "c 41": "C-41",
    "color negative": "C-41",
    "E 6": "E-6",
    slides: "E-6",
    "ECN-2": "ECN-2",
    "black and white": "black-and-white",
    "b&w": "black-and-white",
    "something else": REFUSED,
    skip: REFUSED,
  }),
)("process: %s", (said, value) => {
  expect(read("process", said)).toEqual(value);
});

test.each(
  table({
    millilitres: "metric",
    mL: "metric",
    "US ounces": "us",
    american: "us",
    "Imperial ounces": "imperial",
    british: "imperial",
    ounces: REFUSED,
    oz: REFUSED,
  }),
)("measure: %s", (said, value) => {
  expect(read("measure", said)).toEqual(value);
});

const bathNames = (value: unknown): unknown =>
  Array.isArray(value) ? value.map(({ name }) => name).join(", ") : value;

test.each(
  table({
    "developer, blix, wash, stabilizer": "developer, blix, wash, stabilizer",
    "dev then blix then wash": "developer, blix, wash",
    "it is developer and then bleach-fix": "developer, blix",
    "presoak, developer, stop bath, blix, rinse, final rinse":
      "prewash, developer, stop, blix, wash, stabilizer",
    "developer, bleach, wash, fixer, wash, stabilizer":
      "developer, bleach, first wash, fixer, second wash, stabilizer",
    "first developer, reversal, colour developer, conditioner":
      "first developer, reversal, colour developer, conditioner",
    "developer, soup": REFUSED,
    skip: REFUSED,
  }),
)("baths: %s", (said, names) => {
  expect(bathNames(read("baths", said))).toEqual(names);
});

test("more than twelve baths are refused", () => {
  expect(read("baths", "wash ".repeat(13))).toBe(REFUSED);
});

test.each(
  table({
    "1 litre": 1000,
    "1000": 1000,
    "half a litre": 500,
    "about 700 ml": 700,
    "1 us quart": volumeIn(1, "quart", "us"),
    skip: null,
    "not on the paper": null,
    "1": REFUSED,
    "0.5": REFUSED,
    "room temp": REFUSED,
    "32 oz": REFUSED,
    "one quart": REFUSED,
    "1e309": REFUSED,
    NaN: REFUSED,
    lots: REFUSED,
  }),
)("volume off a metric paper: %s", (said, ml) => {
  expect(read("1.total", said)).toEqual(ml);
});

test.each([
  ["us", "32", volumeIn(32, "fl oz", "us")],
  ["us", "32 ounces", volumeIn(32, "fl oz", "us")],
  ["us", "a quart", volumeIn(1, "quart", "us")],
  ["us", "1 imperial pint", volumeIn(1, "pint", "imperial")],
  ["us", "946 ml", 946],
  ["imperial", "40", volumeIn(40, "fl oz", "imperial")],
  ["imperial", "two pints", volumeIn(2, "pint", "imperial")],
] as const)("volume off a paper in %s: %s", (measure, said, ml) => {
  expect(read("1.total", said, measure)).toBeCloseTo(ml, 9);
});

test("start water cannot be left out", () => {
  expect(read("1.water", "skip")).toBe(REFUSED);
  expect(read("1.water", "not on the sheet")).toBe(REFUSED);
});

test.each([
  ["43 C", 43],
  ["43", 43],
  ["110 f", fromFahrenheit(110)],
  ["120", fromFahrenheit(120)],
  ["room temperature", null],
  ["room temp", null],
  ["hot", REFUSED],
  ["38-40 C", REFUSED],
])("warmth: %s", (said, celsius) => {
  expect(read("1.warm", said)).toEqual(celsius);
});

const liquid = (name: string, ml?: number) => ({
  name,
  form: "liquid",
  ...(ml === undefined ? {} : { amount: { ml } }),
});
const powder = (name: string, g?: number) => ({
  name,
  form: "powder",
  ...(g === undefined ? {} : { amount: { g } }),
});

test.each(
  table({
    "A 100 ml, B 50 ml, C 12 g powder": [liquid("A", 100), liquid("B", 50), powder("C", 12)],
    "part a is 100 ml and part b is 50 ml": [liquid("A", 100), liquid("B", 50)],
    "A 100, B 50": [liquid("A", 100), liquid("B", 50)],
    "A and B and C": [liquid("A"), liquid("B"), liquid("C")],
    "A powder, B all": [powder("A"), liquid("B")],
    "A 12 g": [powder("A", 12)],
    "A 50 dry": [powder("A", 50)],
    "starter 1/2 litre": [liquid("starter", 500)],
    "100 ml of A": REFUSED,
    "A 0 ml": REFUSED,
    "A minus 5 ml": REFUSED,
    "A 1e309 ml": REFUSED,
    "A, developer all": [liquid("A"), liquid("developer")],
    "A1, A2 and starter": [liquid("A1"), liquid("A2"), liquid("starter")],
    "uhh what was that": REFUSED,
    "first 30 seconds": REFUSED,
    "developer and blix": REFUSED,
    "8 rolls": REFUSED,
    "38.5": REFUSED,
    "room temp": REFUSED,
    skip: REFUSED,
  }),
)("parts off a metric paper: %s", (said, parts) => {
  expect(read("1.parts", said)).toEqual(parts);
});

test("parts off a paper in ounces: poured where nothing is said, weighed where it is dry", () => {
  const ounces = (n: number) => volumeIn(n, "fl oz", "us");
  expect(read("1.parts", "A 4 oz, B 3.5", "us")).toEqual([
    liquid("A", ounces(4)),
    liquid("B", ounces(3.5)),
  ]);
  expect(read("1.parts", "A 4 oz powder", "us")).toEqual([powder("A", 113.3980925)]);
});

test("more than twelve parts are refused", () => {
  expect(read("1.parts", "A 1 ml ".repeat(13))).toBe(REFUSED);
});

const exact = (time: number) => ({ time, sense: "exact" });
const least = (time: number) => ({ time, sense: "at least" });

test.each(
  table({
    "3:15": exact(195),
    "three fifteen": exact(195),
    "3 minutes 15": exact(195),
    "exactly 3 and a half minutes": exact(210),
    "at least 6:30": least(390),
    "6:30 or more": least(390),
    "6:30 minimum": least(390),
    "3": REFUSED,
    "3:75": REFUSED,
    "3 to 5 minutes": REFUSED,
    skip: REFUSED,
  }),
)("time of a developer: %s", (said, value) => {
  expect(read("1.time", said)).toEqual(value);
});

test.each(table({ "3:00": least(180), "three minutes": least(180), "exactly 3:00": exact(180) }))(
  "time of a wash: %s",
  (said, value) => {
    expect(read("2.time", said)).toEqual(value);
  },
);

const quarter = differenceFromFahrenheit(0.25);
const hundred = fromFahrenheit(100);

test.each(
  table({
    "37.8 C": { temperature: 37.8 },
    "thirty eight": { temperature: 38 },
    "37.8 plus or minus 0.15": { temperature: 37.8, tolerance: 0.15 },
    "37.8±0.15 C": { temperature: 37.8, tolerance: 0.15 },
    "38 plus minus 1": { temperature: 38, tolerance: 1 },
    "100 f +/- 0.25 f": { temperature: hundred, tolerance: quarter },
    "100 F ± 0.25": { temperature: hundred, tolerance: quarter },
    "100 f plus or minus 1/4": { temperature: hundred, tolerance: quarter },
    skip: null,
    "room temp": null,
    "35 to 40": { temperature: 37.5, tolerance: 2.5, told: "35 to 40 °C" },
    "35-40 C": { temperature: 37.5, tolerance: 2.5, told: "35 to 40 °C" },
    "between 35 and 40": { temperature: 37.5, tolerance: 2.5, told: "35 to 40 °C" },
    "from 40 C down to 35 C": { temperature: 37.5, tolerance: 2.5, told: "35 to 40 °C" },
    "thirty-five to forty": { temperature: 37.5, tolerance: 2.5, told: "35 to 40 °C" },
    // The wash of a colour negative process, 24 to 41 °C: Z-131, Table 4-1 (from memory).
    "24 to 41 C": { temperature: 32.5, tolerance: 8.5, told: "24 to 41 °C" },
    "95 to 105 F": {
      temperature: expect.closeTo(hundred, 9),
      tolerance: expect.closeTo(5 / 1.8, 9),
      told: "95 to 105 °F",
    },
    "95 to 105": {
      temperature: expect.closeTo(hundred, 9),
      tolerance: expect.closeTo(5 / 1.8, 9),
      told: "95 to 105 °F",
    },
    "38 to 38": REFUSED,
    "38 C to 105 F": REFUSED,
    "35 to 40 rolls": REFUSED,
    "24 to": REFUSED,
    warm: REFUSED,
    "37.8 plus or minus some": REFUSED,
  }),
)("temperature: %s", (said, value) => {
  expect(read("1.temperature", said)).toEqual(value);
});

test("a band in Fahrenheit has no 32 in it: NIST SP 811 (from memory)", () => {
  expect(quarter).toBeCloseTo(0.1389, 4);
  // Makers round it up: 100.0 ±0.25 °F is printed 37.8 ±0.15 °C, Z-131 Table 4-1 (read).
  expect(quarter).toBeLessThan(0.15);
});

test.each(
  table({
    "first 30 seconds, then 5 seconds every 30": { initial: 30, every: 30, each: 5 },
    "30 s, then 5 s per minute": { initial: 30, every: 60, each: 5 },
    "first minute, then 10 seconds each minute": { initial: 60, every: 60, each: 10 },
    "initial 15 seconds then 5 seconds every half minute": { initial: 15, every: 30, each: 5 },
    "10 seconds every minute": { initial: 10, every: 60, each: 10 },
    "first 30 seconds": { initial: 30 },
    continuous: { initial: 205 },
    skip: null,
    "30 seconds": { initial: 30 },
    "first 30, then 5 every 30": { initial: 30, every: 30, each: 5 },
    gently: REFUSED,
    "38.5": REFUSED,
    "8": REFUSED,
    "S 20 ml": REFUSED,
    "first 38 C": REFUSED,
    "8 rolls": REFUSED,
    "3:15": REFUSED,
    "room temp": REFUSED,
    "every 30 seconds": REFUSED,
    "30 5 30": REFUSED,
  }),
)("agitation: %s", (said, value) => {
  expect(read("1.agitation", said)).toEqual(value);
});

test.each(
  table({
    "8": 8,
    "8 rolls": 8,
    "8 rolls of 135": 8,
    "8 rolls of 120 film": 8,
    "8 rolls of 135-24": REFUSED,
    "eight rolls": 8,
    "2.5 rolls": 2.5,
    "a dozen": 12,
    "half a roll": 0.5,
    skip: null,
    "8 to 10": REFUSED,
    "0.3": REFUSED,
    "38.5": REFUSED,
    "room temp": REFUSED,
    "16 rolls per litre": REFUSED,
    plenty: REFUSED,
  }),
)("capacity: %s", (said, value) => {
  expect(read("1.capacity", said)).toEqual(value);
});

test.each(
  table({
    "6 weeks": 42,
    "about six weeks": 42,
    "40 days": 40,
    "2 months": 60,
    "one year": 365,
    "24 hours": 1,
    skip: null,
    "room temp": REFUSED,
    "38.5": REFUSED,
    "6": REFUSED,
    "6-8 weeks": REFUSED,
    long: REFUSED,
  }),
)("keeping: %s", (said, days) => {
  expect(read("1.keeps", said)).toEqual(days);
});

test.each(
  table({
    "4 percent per roll": { kind: "percent", percent: 4, compounded: false },
    "room temp": REFUSED,
    "0.3": REFUSED,
    "8 rolls": REFUSED,
    "S 20 ml": REFUSED,
  }),
)("re-use: %s", (said, value) => {
  expect(read("1.reuse", said)).toEqual(value);
});

test.each(
  table({
    "times 1.3 per stop": { kind: "factor", factor: 1.3 },
    "x 1.3": { kind: "factor", factor: 1.3 },
    "20 percent per stop": { kind: "factor", factor: 1.2 },
    "factor 2 for 10 degrees": REFUSED,
    "4 percent per roll": REFUSED,
    "1.3": REFUSED,
    "room temp": REFUSED,
  }),
)("push: %s", (said, value) => {
  expect(read("1.push", said)).toEqual(value);
});

test.each(
  table({
    "factor 2 for 10 degrees": { kind: "q10", q10: 2 },
    "it doubles": { kind: "q10", q10: 2 },
    "times 1.3 per stop": REFUSED,
    "2": REFUSED,
    "room temp": REFUSED,
  }),
)("times at other temperatures: %s", (said, value) => {
  expect(read("1.times", said)).toEqual(value);
});

test.each(
  table({
    "6 weeks full and 4 weeks half full": { keeps: 42, keepsPart: 28 },
    "6 weeks in a full bottle, 4 weeks part full": { keeps: 42, keepsPart: 28 },
  }),
)("keeping, full and part full: %s", (said, value) => {
  expect(read("1.keeps", said)).toEqual(value);
});

test("nothing that can be typed makes it throw", () => {
  const odd = ["", " ", "\u0000", "\ud800", "\u202e\u200b", "9".repeat(400), "a ".repeat(400)];
  for (const { id } of questionsOf(gardenAnswers)) {
    for (const text of odd) expect(() => read(id, text)).not.toThrow(TypeError);
  }
});
