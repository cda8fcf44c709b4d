import fc from "fast-check";
import { expect, test } from "vitest";
import { told } from "../origin.ts";
import { ok } from "../result.ts";
import {
  celsius,
  celsiusDifference,
  type Instant,
  instant,
  later,
  seconds,
} from "../units/quantity.ts";
import { bandOf } from "./bands.ts";
import { askFirst, type CompensationRules, LAYERS_CAUTION, settle } from "./compensate.ts";
import type { DriftStage } from "./drift.ts";
import type { BathReading } from "./path.ts";
import { askAboutReading } from "./question-reading.ts";

const start = instant(1_800_000_000_000);
const at = (s: number) => later(start, s);
const reading = (s: number, temperature: number) => ({
  at: at(s),
  temperature: celsius(temperature),
});
const stage: DriftStage = { start, time: seconds(195), aim: celsius(37.8), drain: seconds(10) };
const rules: CompensationRules = {
  allowed: true,
  law: { kind: "q10", q10: 3, origin: told },
  tolerance: celsiusDifference(0.15),
  colour: true,
};

/** A new reading: asked about first, unless it was confirmed, then settled with those before it. */
function compensate(
  one: DriftStage,
  by: CompensationRules,
  earlier: readonly BathReading[],
  fresh: BathReading,
  now: Instant,
  confirmed = false,
) {
  const question = confirmed ? undefined : askFirst(one, by, earlier, fresh, now);
  return question === undefined
    ? settle(one, by, [...earlier, fresh], now)
    : ok({ kind: "question" as const, question });
}

type Given = {
  stage?: Partial<DriftStage>;
  rules?: Partial<CompensationRules>;
  earlier?: ReturnType<typeof reading>[];
  reading: ReturnType<typeof reading>;
  confirmed?: boolean;
};
function decided(given: Given) {
  const decision = compensate(
    { ...stage, ...given.stage },
    { ...rules, ...given.rules },
    given.earlier ?? [],
    given.reading,
    given.reading.at,
    given.confirmed,
  );
  if (!decision.ok) throw new Error(decision.error.kind);
  return decision.value;
}

test("a sheet that allows it moves the pour-out, with the caution in colour: FAOL, physical process control, p. 10 (read)", () => {
  const decision = decided({ reading: reading(60, 37.4) });
  if (decision.kind !== "replan") throw new Error(decision.kind);
  expect(decision.time).toBeCloseTo(195 * 3 ** 0.04, 9);
  expect(decision).toMatchObject({ band: "ask", atOnce: false, caution: LAYERS_CAUTION.text });
  expect(LAYERS_CAUTION.text).toBe("Time restores density, not the balance of the layers.");
  const plain = decided({ reading: reading(60, 37.4), rules: { colour: false } });
  expect(plain).toMatchObject({ kind: "replan", caution: undefined });
});

test("a sheet that does not allow it gets the size of the error and three offers", () => {
  const decision = decided({ reading: reading(60, 37.4), rules: { allowed: false } });
  if (decision.kind !== "state") throw new Error(decision.kind);
  expect(decision).toMatchObject({ why: "not-allowed", offers: ["keep", "adjust", "log"] });
  expect(decision.size).toMatchObject({ estimate: false });
  expect(decision.size.from).toBeCloseTo(195 / 3 ** 0.04 - 195, 9);
  expect(decision.size.from).toBe(decision.size.to);
  expect(decision.adjusted).toBeCloseTo(195 * 3 ** 0.04, 9);
  expect(decision.caution).toBe(LAYERS_CAUTION.text);
});

test("with no law the size is a range and nothing moves by itself", () => {
  const decision = decided({ reading: reading(60, 37.3), rules: { law: undefined } });
  if (decision.kind !== "state") throw new Error(decision.kind);
  expect(decision.why).toBe("estimate-only");
  expect(decision.size.estimate).toBe(true);
  expect(decision.size.from).toBeCloseTo(195 / 2.9 ** 0.05 - 195, 9);
  expect(decision.size.to).toBeCloseTo(195 / 1.4 ** 0.05 - 195, 9);
  // A little: by the smaller of the two.
  expect(decision.adjusted).toBeCloseTo(195 * 1.4 ** 0.05, 9);
});

test("a little is a tenth at most: our own figure", () => {
  const decision = decided({
    reading: reading(60, 35.8),
    rules: { allowed: false },
    confirmed: true,
  });
  expect(decision.kind === "state" && decision.adjusted).toBeCloseTo(214.5, 9);
});

test("a slip in the first reading is asked about: ten times the band, at least 1.5 °C", () => {
  // 34.7 for 37.4, two digits exchanged; a tank's honest loss of 1 °C is believed.
  expect(decided({ reading: reading(60, 34.7) }).kind).toBe("question");
  expect(decided({ reading: reading(60, 36.2) }).kind).toBe("question");
  expect(decided({ reading: reading(60, 36.8) }).kind).not.toBe("question");
});

test("beyond half or double of the sheet's own time it is not moved: our own bound", () => {
  const decision = decided({
    reading: reading(60, 36.8),
    stage: { time: seconds(380) },
    rules: { base: seconds(195) },
  });
  expect(decision).toMatchObject({ kind: "state", why: "beyond-limits" });
});

test("film that is out can only be kept or logged", () => {
  const decision = decided({ reading: reading(100, 36.8), stage: { out: at(195) } });
  expect(decision).toMatchObject({
    kind: "state",
    why: "already-out",
    offers: ["keep", "log"],
    adjusted: undefined,
  });
});

test("once announced, the same news is no news", () => {
  const first = decided({ reading: reading(60, 37.4) });
  if (first.kind !== "replan") throw new Error(first.kind);
  const again = decided({
    stage: { planned: first.time },
    earlier: [reading(60, 37.4)],
    reading: reading(90, 37.4),
  });
  expect(again.kind).toBe("nothing");
});

test("a bath that swings back calls the pour-out back", () => {
  const first = decided({ reading: reading(30, 37.4) });
  if (first.kind !== "replan") throw new Error(first.kind);
  const back = decided({
    stage: { planned: first.time },
    earlier: [reading(30, 37.4)],
    reading: reading(60, 38.2),
  });
  expect(back.kind === "replan" && back.change).toBeLessThan(0);
});

test.each([
  { name: "at the aim", temperature: 37.8 },
  { name: "inside the sheet's tolerance", temperature: 37.95 },
])("nothing happens $name: Z-131 Table 4-1, ±0.15 °C (read)", ({ temperature }) => {
  expect(decided({ reading: reading(60, temperature) }).kind).toBe("nothing");
  const strict = decided({ reading: reading(60, temperature), rules: { allowed: false } });
  expect(strict.kind).toBe("nothing");
});

test("already too much: out at once", () => {
  const decision = decided({
    earlier: [reading(0, 40)],
    reading: reading(175, 40),
    stage: { planned: seconds(190) },
  });
  expect(decision).toMatchObject({ kind: "replan", atOnce: true, pourOut: at(175) });
});

test.each([
  {
    name: "27.4 for 37.4",
    reading: reading(60, 27.4),
    says: "only 30 s apart is faster than a tank",
  },
  {
    name: "100 meaning °F",
    reading: reading(60, 100),
    says: "did you read 100 °F, that is 37.8 °C?",
  },
  { name: "room for bath", reading: reading(60, 20), says: "17.8 °C from the aim: is that right?" },
])("asked about first: $name", ({ reading: odd, says }) => {
  const decision = decided({ earlier: [reading(30, 37.6)], reading: odd });
  expect(decision.kind === "question" && askAboutReading(decision.question)).toContain(says);
});

test("a late reading is held against both its neighbours", () => {
  const earlier = [reading(0, 37.8), reading(120, 37.8)];
  const late = compensate(stage, rules, earlier, reading(115, 36), at(130));
  expect(late.ok && late.value).toMatchObject({
    kind: "question",
    question: { kind: "jump", beside: { temperature: 37.8 }, between: 5 },
  });
  const fits = compensate(stage, rules, earlier, reading(60, 37.5), at(130));
  expect(fits.ok && fits.value.kind).toBe("replan");
});

test("confirmed, an odd reading is believed, as far as the law goes", () => {
  expect(
    decided({ earlier: [reading(30, 37.8)], reading: reading(60, 34), confirmed: true }).kind,
  ).toBe("replan");
  const far = compensate(stage, rules, [], reading(60, 20), at(60), true);
  expect(far).toMatchObject({ ok: false, error: { kind: "outside-law" } });
});

test("a reading that cannot be is refused, not asked about", () => {
  expect(compensate(stage, rules, [], reading(-5, 37.8), at(10))).toMatchObject({
    error: { kind: "before-pour" },
  });
  expect(compensate(stage, rules, [], reading(5, 101), at(10))).toMatchObject({
    error: { kind: "impossible-temperature" },
  });
});

// Our own bounds, no source.
test.each([
  { off: 0.3, band: "note" },
  { off: -0.31, band: "ask" },
  { off: 1, band: "ask" },
  { off: 1.01, band: "hold" },
  { off: 38.1 - 37.8, band: "note" },
])("$off °C off: $band", ({ off, band }) => {
  expect(bandOf(celsiusDifference(off))).toBe(band);
});

test("no decision moves a cue into the past, and each stands inside the limits", () => {
  const temperatures = fc.array(fc.double({ min: 36, max: 40, noNaN: true }), {
    minLength: 1,
    maxLength: 8,
  });
  fc.assert(
    fc.property(
      temperatures,
      fc.boolean(),
      fc.boolean(),
      fc.integer({ min: 1, max: 60 }),
      (all, allowed, known, step) => {
        const readings = all.map((t, i) => reading(i * step, t));
        const last = readings.at(-1) ?? reading(0, 37.8);
        const law = known ? rules.law : undefined;
        const decision = compensate(
          stage,
          { ...rules, allowed, law },
          readings.slice(0, -1),
          last,
          last.at,
          true,
        );
        if (!decision.ok) throw new Error(decision.error.kind);
        const { value } = decision;
        if (value.kind === "replan") {
          expect(value.pourOut).toBeGreaterThanOrEqual(last.at - 1e-3);
          expect(value.time).toBeLessThanOrEqual(390);
        }
        if (value.kind === "state" && value.adjusted !== undefined) {
          const pourOut = later(start, value.adjusted - stage.drain);
          expect(value.adjusted === 195 || pourOut >= last.at - 1e-3).toBe(true);
        }
      },
    ),
  );
});

test("once pouring out has begun nothing moves, and the size is told all the same", () => {
  const late = settle(stage, rules, [reading(120, 37.3)], at(187));
  expect(late).toMatchObject({
    ok: true,
    value: { kind: "state", why: "already-out", offers: ["keep", "log"], adjusted: undefined },
  });
  // The rate at 37.3 °C all the way: 3 to the power of -0.05.
  expect(late.ok && late.value.size.from).toBeCloseTo(195 * (3 ** -0.05 - 1), 9);
  const before = settle(stage, rules, [reading(120, 37.3)], at(184));
  expect(before).toMatchObject({ value: { kind: "replan" } });
});

test("with the last reading struck, what it moved comes back", () => {
  const moved = { ...stage, planned: seconds(210) };
  expect(settle(moved, rules, [], at(60))).toMatchObject({
    value: { kind: "replan", time: 195, change: -15 },
  });
  expect(settle(stage, rules, [], at(60))).toMatchObject({ value: { kind: "nothing" } });
});
