import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../test/support/arbitrary-run.ts";
import { livedRun } from "../../test/support/lived-run.ts";
import { at, evening, runOf, stageOf, stagesOf, washOf } from "../../test/support/runs.ts";
import { allOf, parseXml, type Xml } from "../../test/support/xml.ts";
import { shippedSheets } from "../data/sheets.ts";
import { type Chart, chartOf } from "../domain/session/chart.ts";
import { rehearse } from "../domain/session/rehearsal.ts";
import type { Run } from "../domain/session/run.ts";
import { celsius, celsiusDifference } from "../domain/units/quantity.ts";
import { temperatureChart } from "./temperature-chart.ts";
import { temperatureText } from "./temperature-text.ts";

const demo = shippedSheets.find(({ id }) => id === "demo");
const plan = runOf(stagesOf(demo?.baths ?? []), { title: "saltmarsh demo" });
const run = livedRun(plan, {
  off: { 0: 9, 2: -25 },
  read: [
    { stage: 0, into: -12, temperature: 38.3 },
    { stage: 0, into: 30, temperature: 38.15 },
    { stage: 0, into: 120, temperature: 37.9 },
    { stage: 1, into: 40, temperature: 41.2 },
    { stage: 3, into: 20, temperature: 22.5 },
  ],
});
const chart = chartOf(run, at(5000));
const shapes = ["wide", "phone"] as const;

const drawn = (one: Chart, shape: "wide" | "phone"): Xml =>
  parseXml(temperatureChart(one, "UTC", shape).svg);
const texts = (xml: Xml): readonly string[] =>
  allOf(xml)
    .filter(({ name }) => name === "text")
    .map(({ text }) => text);

test.each(shapes)("%s: every stage and every reading stands on it in words", (shape) => {
  const words = texts(drawn(chart, shape));
  for (const { bath } of chart.stages) expect(words).toContain(bath);
  for (const reading of ["38.3 °C", "38.15 °C", "37.9 °C", "41.2 °C", "22.5 °C"]) {
    expect(
      words.some((one) => one.startsWith(reading)),
      reading,
    ).toBe(true);
  }
  expect(words).toEqual(expect.arrayContaining(["too cold", "too warm", "inside the band"]));
  expect(words.join(" ")).toContain("9 s longer than planned");
  expect(words.join(" ")).toContain("25 s shorter than planned, and its time is a minimum");
});

test.each(shapes)(
  "%s: nothing but ink and paper, so that no colour has to be told apart",
  (shape) => {
    for (const { attributes } of allOf(drawn(chart, shape))) {
      for (const colour of [attributes.fill, attributes.stroke]) {
        if (colour === undefined || colour === "none") continue;
        const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((n) =>
          parseInt(colour.slice(n, n + 2), 16),
        );
        expect(Math.max(red, green, blue) - Math.min(red, green, blue)).toBeLessThanOrEqual(20);
      }
    }
  },
);

test("sizes: 1200 px wide, and for a phone no higher than what stands on it", () => {
  const size = (one: Chart, shape: "wide" | "phone") => {
    const { attributes } = drawn(one, shape);
    const { width, height } = temperatureChart(one, "UTC", shape);
    expect([attributes.width, attributes.height]).toEqual([String(width), String(height)]);
    return [width, height];
  };
  const quiet = chartOf(livedRun(runOf([stageOf(), washOf()])), at(5000));
  expect(size(quiet, "phone")).toEqual([1080, 640]);
  expect(size(quiet, "wide")[0]).toBe(1200);
  expect(size(chart, "wide")[0]).toBe(1200);
  expect(size(chart, "phone")[1]).toBeLessThan(2400);
});

/** One bath of 0.2 °C to either side, with readings from a tenth to nine degrees off. */
const far = chartOf(
  livedRun(
    runOf([
      stageOf({
        temperature: celsius(38),
        temperatureOrigin: { kind: "invented" },
        tolerance: celsiusDifference(0.2),
      }),
    ]),
    {
      read: [38.1, 37.5, 36.8, 35, 33, 29.1, 40, 47].map((temperature, n) => ({
        stage: 0,
        into: 10 + n * 20,
        temperature,
      })),
    },
  ),
  at(5000),
);

test.each(shapes)("%s: a reading far off stands in its place, with its value", (shape) => {
  const xml = drawn(far, shape);
  const group = (reading: string): number => {
    const found = allOf(xml).find(
      ({ name, children }) =>
        name === "g" &&
        children.some(({ name: inner, text }) => inner === "title" && text.includes(reading)),
    );
    const points = found?.children.find(({ name }) => name === "polygon")?.attributes.points ?? "";
    const ys = points.split(" ").map((point) => Number(point.split(",")[1]));
    return ys.reduce((sum, y) => sum + y, 0) / ys.length;
  };
  const down = ["47 °C", "40 °C", "37.5 °C", "36.8 °C", "35 °C", "33 °C", "29.1 °C"];
  const places = down.map(group);
  // Warmer is higher, and no two of them stand in one place.
  for (const [n, y] of places.slice(1).entries()) expect(y).toBeGreaterThan((places[n] ?? 0) + 2);
  const words = texts(xml);
  for (const reading of ["47 °C", "29.1 °C"]) {
    expect(words.some((one) => one.startsWith(reading))).toBe(true);
  }
  expect(words).toContain("from here on degrees stand closer");
});

test("a phone's picture of one bath has no blank half", () => {
  const { height } = temperatureChart(far, "UTC", "phone");
  const lowest = Math.max(
    ...allOf(drawn(far, "phone"))
      .filter(({ name }) => name === "text")
      .map(({ attributes }) => Number(attributes.y)),
  );
  expect(lowest).toBeGreaterThan(height * 0.9);
});

test("a run that waits is drawn as of now", () => {
  const { pourAt: _, ...waiting } = stageOf();
  const waits = { ...runOf([stageOf()]), stages: [waiting] };
  expect(chartOf(waits, at(600)).from).toBe(at(600));
});

test("a rehearsal says so on its picture and in its text", () => {
  const made = rehearse(plan, 10);
  if (!made.ok) throw new Error(made.error.kind);
  const rehearsal = chartOf(made.value, evening);
  for (const shape of shapes) {
    expect(texts(drawn(rehearsal, shape)).join(" ")).toContain("REHEARSAL with water");
  }
  expect(temperatureText(rehearsal, "UTC")[1]).toContain("REHEARSAL with water");
  expect(texts(drawn(chart, "wide")).join(" ")).not.toContain("REHEARSAL");
});

test("names are text, never markup", () => {
  const sly = `<script>&"Ł'\u0001`;
  const named = runOf([stageOf({ bath: sly })], { tank: sly, title: `${sly}, ${sly}` });
  for (const shape of shapes) {
    const xml = drawn(chartOf(named, evening), shape);
    expect(allOf(xml).some(({ name }) => name === "script")).toBe(false);
    expect(texts(xml).join(" ")).toContain(`<script>&"Ł'`);
  }
});

test("the text names every deviation and every reading, and what was quiet", () => {
  const lines = temperatureText(chart, "UTC");
  expect(lines).toMatchInlineSnapshot(`
    [
      "North: saltmarsh demo, 28 November 2026, 19:30",
      "developer, 38.2 ±0.2 °C; 38.3 °C before the pour (inside), 38.15 °C at 30 s (inside), 37.9 °C at 2:00 (too cold); 9 s longer than planned; read 37.9 °C, 0.3 °C below 38.2 °C (±0.2 °C).",
      "blix, 38 ±2.5 °C; 41.2 °C at 40 s (too warm); read 41.2 °C, 3.2 °C above 38 °C (±2.5 °C).",
      "wash, 38 ±2.5 °C; nothing read; 25 s shorter than planned, and its time is a minimum.",
      "stabilizer, 24 °C; 22.5 °C at 20 s.",
    ]
  `);
  const whole = lines.join("\n");
  for (const { bath, deviations } of chart.stages) {
    for (const deviation of deviations) expect(whole).toContain(deviation.replace(`${bath}: `, ""));
  }
});

test("a run without a word to say is told in two lines", () => {
  const quiet = chartOf(livedRun(runOf([stageOf(), washOf()])), at(5000));
  expect(temperatureText(quiet, "UTC")).toEqual([
    "North: test, 28 November 2026, 19:30",
    "Nothing read and nothing amiss: developer, wash.",
  ]);
});

test("any run with any readings is drawn well-formed, inside its picture", () => {
  const many = fc.array(
    fc.tuple(fc.nat(4), fc.integer({ min: -60, max: 700 }), fc.integer({ min: -50, max: 1100 })),
    {
      maxLength: 40,
    },
  );
  const fine = fc.property(
    arbitraryRun,
    many,
    fc.boolean(),
    fc.nat(3000),
    (plain, taken, over, now) => {
      const banded: Run = {
        ...plain,
        stages: plain.stages.map((stage, n) =>
          n % 2 === 0
            ? { ...stage, temperature: celsius(38), tolerance: celsiusDifference(0.15) }
            : stage,
        ),
      };
      const read = taken.map(([stage, into, tenths]) => ({
        stage: stage % plain.stages.length,
        into,
        temperature: tenths / 10,
      }));
      const one = chartOf(over ? livedRun(banded, { read }) : banded, at(now));
      for (const shape of shapes) {
        const { svg, width, height } = temperatureChart(one, "UTC", shape);
        for (const { name, attributes } of allOf(parseXml(svg))) {
          expect(JSON.stringify(attributes)).not.toMatch(/NaN|Infinity|undefined/);
          if (name !== "text" && name !== "circle") continue;
          const [x, y] = [
            Number(attributes.x ?? attributes.cx),
            Number(attributes.y ?? attributes.cy),
          ];
          expect(x >= 0 && x <= width && y >= 0 && y <= height).toBe(true);
        }
      }
    },
  );
  fc.assert(fine, { numRuns: 60 });
});
