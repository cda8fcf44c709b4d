import fc from "fast-check";
import { expect, test } from "vitest";
import { asPushRule, circulatingRules } from "../../data/push-rules.ts";
import { seconds } from "../units/quantity.ts";
import { developerTime } from "./developer-time.ts";
import { explainPush, mixedPushes, pushTime, showStops } from "./push-time.ts";
import type { PushRule } from "./sheet.ts";

const s = seconds;
const origin = { kind: "invented" as const };
const circulating = (id: string, process: string, base: number): PushRule => {
  const found = circulatingRules(process).find((rule) => rule.id === id);
  if (found === undefined) throw new Error(`no rule ${id}`);
  return asPushRule(found, s(base));
};
const push = (rule: PushRule, base: number, stops: number): number => {
  const found = pushTime(s(base), s(base), rule, stops);
  return found.ok ? found.value.time : Number.NaN;
};

test.each([
  {
    says: "30 s a stop from 3:15 is 3:45: personal wiki page on home processing (common practice)",
    found: push(circulating("thirty-seconds", "C-41", 195), 195, 1),
    time: 225,
  },
  {
    says: "and 2:45 pulled one: the same page (common practice)",
    found: push(circulating("thirty-seconds", "C-41", 195), 195, -1),
    time: 165,
  },
  {
    says: "push 2 is 4:15: Z-131 data sheet E-4040 (from memory)",
    found: push(circulating("thirty-seconds", "C-41", 195), 195, 2),
    time: 255,
  },
  {
    says: "half more is 4:52.5: magazine tests, quoted (read-secondary)",
    found: push(circulating("half-more", "C-41", 195), 195, 1),
    time: 292.5,
  },
  {
    says: "a third more is 4:20: online textbook (read in excerpt)",
    found: push(circulating("third-more", "C-41", 195), 195, 1),
    time: 260,
  },
  {
    says: "reversal +2:00 for one stop on 6:00: Z-119 (from memory)",
    found: push(circulating("reversal-table", "E-6", 360), 360, 1),
    time: 480,
  },
  {
    says: "reversal +5:30 for two stops on 7:00: Z-119 (from memory)",
    found: push(circulating("reversal-table", "E-6", 420), 420, 2),
    time: 750,
  },
  {
    says: "reversal -2:00 for a pull on 6:00: Z-119 (from memory)",
    found: push(circulating("reversal-table", "E-6", 360), 360, -1),
    time: 240,
  },
])("$says", ({ found, time }) => {
  expect(found).toBeCloseTo(time, 9);
});

test("motion-picture push figures were not verified, so none ship", () => {
  expect(circulatingRules("ECN-2")).toEqual([]);
});

test("a table has what it has: another push is refused with what there is", () => {
  const rule: PushRule = { kind: "table", origin, rows: [{ at: 1, time: s(225) }] };
  const found = pushTime(s(195), s(195), rule, 2);
  expect(found.ok ? "" : explainPush(found.error)).toContain("has no push 2. It has push 1");
});

test("a pull that leaves no time is refused", () => {
  const found = pushTime(s(60), s(60), { kind: "seconds", seconds: s(30), origin }, -2);
  expect(found.ok ? "" : explainPush(found.error)).toContain("leaves no time");
});

test("re-use comes first, then the push, each in the record", () => {
  const bath = {
    time: { value: s(200), origin },
    reuse: { kind: "percent" as const, percent: 10, compounded: false, origin },
  };
  const factor: PushRule = { kind: "factor", factor: 1.5, origin };
  const found = developerTime(bath, { units: 1, batches: 1 }, { stops: 1, rule: factor });
  if (found?.ok !== true) throw new Error("no time");
  expect(found.value.time.value).toBeCloseTo(330, 9);
  expect(found.value.corrections.map(({ kind, by }) => [kind, Math.round(by)])).toEqual([
    ["re-use", 20],
    ["push", 110],
  ]);
  expect(found.value.time.origin.kind).toBe("computed");
});

test("a table's difference is added to a time that re-use has raised", () => {
  const bath = {
    time: { value: s(200), origin },
    reuse: { kind: "seconds" as const, seconds: s(10), per: "unit" as const, origin },
  };
  const rule: PushRule = { kind: "table", origin, rows: [{ at: 1, time: s(230) }] };
  const found = developerTime(bath, { units: 2, batches: 1 }, { stops: 1, rule });
  expect(found?.ok === true && found.value.time.value).toBe(250);
});

test("without a rule and without film before, the sheet's own figure stands as it is", () => {
  const time = { value: s(200), origin };
  const found = developerTime({ time }, { units: 3, batches: 2 }, undefined);
  expect(found?.ok === true && found.value.time).toBe(time);
  expect(developerTime({}, undefined, undefined)).toBeUndefined();
});

test("one tank, one push", () => {
  expect(mixedPushes([1, 1])).toBe(false);
  expect(mixedPushes([1, 0])).toBe(true);
  expect([1, -2, 0].map(showStops)).toEqual(["push 1", "pull 2", "no push"]);
});

test("a push and the same pull by seconds cancel out, by a factor too", () => {
  const law = fc.property(fc.integer({ min: 1, max: 3 }), (stops) => {
    const factor: PushRule = { kind: "factor", factor: 1.3, origin };
    const there = push(factor, 195, stops);
    expect(push(factor, there, -stops)).toBeCloseTo(195, 9);
  });
  fc.assert(law);
});
