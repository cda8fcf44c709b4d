import { expect, test } from "vitest";
import { gardenAnswers } from "../../../test/support/garden-sheet.ts";
import { celsius, celsiusDifference, grams, millilitres, seconds } from "../units/quantity.ts";
import type { Answers, BathAnswers } from "./answers.ts";
import { checkBath } from "./check-answer.ts";

const ml = millilitres;
const developer = gardenAnswers.bath?.developer ?? {};
const liquid = (name: string, amount: number) => ({
  name,
  form: "liquid" as const,
  amount: { ml: ml(amount) },
});

/** The garden sheet with some of its developer's figures changed. */
const check = (change: BathAnswers, kind = "developer"): string | undefined => {
  const answers: Answers = {
    ...gardenAnswers,
    baths: [{ name: "developer", kind }],
    bath: { developer: { ...developer, ...change } },
  };
  return checkBath(answers, "developer");
};

test("a sheet whose figures hold together is right", () => {
  expect(check({})).toBeUndefined();
  expect(checkBath(gardenAnswers, "wash")).toBeUndefined();
  expect(checkBath(gardenAnswers, "stop")).toBeUndefined();
});

const s = seconds;
test.each<{ what: string; change: BathAnswers; says: RegExp }>([
  { what: "no batch", change: { total: ml(0) }, says: /batch of 0 mL cannot be/ },
  { what: "a swimming pool", change: { total: ml(250_000) }, says: /250 L cannot be/ },
  { what: "no start water", change: { water: ml(0) }, says: /0 mL of start water cannot be/ },
  { what: "water below nothing", change: { water: ml(-5) }, says: /-5 mL of start water/ },
  {
    what: "water above the mark",
    change: { water: ml(1100), parts: [] },
    says: /1.1 L is more than the batch of 1 L/,
  },
  {
    what: "parts above the mark",
    change: { parts: [liquid("A", 200), liquid("B", 101)] },
    says: /700 mL and parts 301 mL come to 1 L, more than the batch/,
  },
  {
    what: "one part twice",
    change: { parts: [liquid("A", 10), liquid("a", 20)] },
    says: /Part a stands there twice/,
  },
  { what: "boiling water", change: { warm: celsius(100) }, says: /100 °C is not plausible/ },
  { what: "ice", change: { warm: celsius(0) }, says: /0 °C is not plausible/ },
  { what: "ten seconds", change: { time: { time: s(10), sense: "exact" } }, says: /10 s is no/ },
  {
    what: "two days",
    change: { time: { time: s(172_800), sense: "exact" } },
    says: /48 h 00 min is no time/,
  },
  {
    what: "100 degrees read as Celsius",
    change: { temperature: { temperature: celsius(100) } },
    says: /developer at 100 °C is not plausible.*C or F/,
  },
  {
    what: "a developer at 55 °C",
    change: { temperature: { temperature: celsius(55) } },
    says: /developer at 55 °C is not plausible/,
  },
  {
    what: "a developer below 5 °C",
    change: { temperature: { temperature: celsius(3) } },
    says: /not plausible/,
  },
  {
    what: "a developer at 8 °C, where hydroquinone no longer works (from memory)",
    change: { temperature: { temperature: celsius(8) } },
    says: /developer at 8 °C is not plausible/,
  },
  { what: "a batch of a spoonful", change: { total: ml(8) }, says: /batch of 8 mL cannot be/ },
  {
    what: "a band of nothing",
    change: { temperature: { temperature: celsius(38), tolerance: celsiusDifference(0) } },
    says: /±0 °C is not plausible/,
  },
  {
    what: "a band of 20",
    change: { temperature: { temperature: celsius(38), tolerance: celsiusDifference(20) } },
    says: /±20 °C is not plausible/,
  },
  {
    what: "agitation longer than the bath",
    change: { agitation: { initial: s(206) } },
    says: /3:26 is longer than the 3:25 in the bath/,
  },
  {
    what: "beats without a pause between",
    change: { agitation: { initial: s(30), every: s(5), each: s(6) } },
    says: /6 s every 5 s cannot be/,
  },
  {
    what: "a beat a second",
    change: { agitation: { initial: s(30), every: s(1), each: s(1) } },
    says: /1 s every 1 s cannot be/,
  },
  {
    what: "agitation below nothing",
    change: { agitation: { initial: s(-30) } },
    says: /-30 s cannot be/,
  },
  {
    what: "beats below nothing",
    change: { agitation: { initial: s(30), every: s(30), each: s(-5) } },
    says: /-5 s cannot be/,
  },
  { what: "no film at all", change: { capacity: 0 }, says: /0 rolls is not plausible/ },
  { what: "film without end", change: { capacity: 1001 }, says: /1001 rolls is not plausible/ },
  { what: "an hour's keeping", change: { keeps: 0.04 }, says: /days is not plausible/ },
  { what: "eleven years", change: { keeps: 4015 }, says: /4015 days is not plausible/ },
])("$what is a slip", ({ change, says }) => {
  const wrong = check(change);
  expect(wrong).toMatch(says);
  expect(wrong).toMatch(/\bRead\b/);
});

test.each<{ what: string; change: BathAnswers; kind?: string }>([
  { what: "water and parts exactly to the mark", change: { parts: [liquid("A", 300)] } },
  {
    what: "a powder, whose volume nobody knows",
    change: { parts: [{ name: "A", form: "powder", amount: { g: grams(900) } }] },
  },
  {
    what: "mixing at 52 °C: US Navy photography training manual, mixing section (read)",
    change: { warm: celsius(52) },
  },
  {
    what: "a stabilizer at 55 °C",
    change: { temperature: { temperature: celsius(55) } },
    kind: "stabilizer",
  },
  { what: "agitation all the time", change: { agitation: { initial: s(205) } } },
  { what: "no agitation before the beats", change: { agitation: { initial: s(0), every: s(15) } } },
  { what: "half a roll", change: { capacity: 0.5 } },
  { what: "half a day", change: { keeps: 0.5 } },
  {
    what: "a bath not mixed from parts, with water said before",
    change: { total: null, water: ml(900) },
  },
])("$what can be", ({ change, kind }) => {
  expect(check(change, kind)).toBeUndefined();
});
