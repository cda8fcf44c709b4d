import fc from "fast-check";
import { expect, test } from "vitest";
import { coldRules } from "../../data/cold-rules.ts";
import { fromFahrenheit } from "../units/conversions.ts";
import { type Celsius, celsius, type Seconds, seconds } from "../units/quantity.ts";
import { type ColdRule, coldRuleFor, coldTime, explainCold } from "./cold-time.ts";

function ruleFor(bath: string): ColdRule {
  const rule = coldRuleFor(coldRules, bath);
  if (rule === undefined) throw new Error(`no rule for ${bath}`);
  return rule;
}

const TM = "TM 11-2323, cold-climate processing";
test.each([
  { bath: "fixer", f: 68, factor: 1, source: `${TM}, para. c (read)` },
  { bath: "fixer", f: 50, factor: 2, source: `${TM}, para. c (read)` },
  { bath: "fixer", f: 32, factor: 4, source: `${TM}, para. c (read)` },
  { bath: "fixer", f: 59, factor: Math.SQRT2, source: `${TM}, para. c (read), exponential` },
  { bath: "fixer", f: 75, factor: 1, source: `${TM}, para. c (read): nothing above 68 °F` },
  { bath: "wash", f: 50, factor: 2, source: `${TM}, para. d (read)` },
  { bath: "wash", f: 68, factor: 1, source: `${TM}, para. d (read)` },
])("$bath at $f °F takes $factor times as long: $source", ({ bath, f, factor }) => {
  const cold = coldTime(ruleFor(bath), seconds(300), fromFahrenheit(f), celsius(20));
  expect(cold.ok && cold.value.factor).toBeCloseTo(factor, 9);
  expect(cold.ok && cold.value.time).toBeCloseTo(300 * factor, 6);
});

test("the working names the rule", () => {
  const cold = coldTime(ruleFor("fixer"), seconds(300), celsius(10));
  expect(cold.ok && cold.value.how).toBe(
    `at 10 °C × 2: 2 times for every 10 °C below 20 °C; published: ${TM}, para. c (read)`,
  );
  expect(coldRuleFor(coldRules, "blix")).toBeUndefined();
});

test.each([
  { bath: "wash", at: 9, aim: 20, says: "ends at 10 °C" },
  { bath: "fixer", at: -1, aim: 20, says: "from 0 to 100 °C" },
  { bath: "fixer", at: 15, aim: 38, says: "sets this bath at 38 °C" },
  { bath: "fixer", at: Number.NaN, aim: 20, says: "I need a temperature" },
])("$bath at $at °C with an aim of $aim is refused: $says", ({ bath, at, aim, says }) => {
  const cold = coldTime(ruleFor(bath), seconds(300), at as Celsius, celsius(aim));
  expect(cold.ok ? "" : explainCold(cold.error)).toContain(says);
});

test("a rule without a step and a bath without a time are refused", () => {
  const bad = { ...ruleFor("fixer"), factor: Number.NaN };
  const refused = [
    coldTime(bad, seconds(300), celsius(15)),
    coldTime(ruleFor("fixer"), Number.NaN as Seconds, celsius(15)),
  ];
  expect(refused.map((one) => (one.ok ? "" : explainCold(one.error)))).toEqual([
    "The rule for cold baths cannot be used: its step or factor is not above zero.",
    "I need the bath's normal time before I can lengthen it.",
  ]);
});

test("colder never takes less", () => {
  const at = fc.double({ min: 10, max: 40, noNaN: true });
  fc.assert(
    fc.property(at, at, fc.constantFrom("fixer", "wash"), (one, other, bath) => {
      const [cold, warm] = [Math.min(one, other), Math.max(one, other)].map((t) =>
        coldTime(ruleFor(bath), seconds(100), celsius(t)),
      );
      expect(cold?.ok && warm?.ok && cold.value.time >= warm.value.time).toBe(true);
    }),
  );
});
