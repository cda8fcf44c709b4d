import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitrarySession, secrets } from "../../../test/support/arbitrary-session.ts";
import { livedRun } from "../../../test/support/lived-run.ts";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { celsius, celsiusDifference, seconds } from "../units/quantity.ts";
import { forSharing, shareWith } from "./for-sharing.ts";
import { sessionSchema, sharedSessionSchema } from "./session-schema.ts";
import { sessionSummary } from "./session-summary.ts";

const sheet = () => ({ name: "saltmarsh demo", invented: true });
const warm = { temperature: celsius(38.2), tolerance: celsiusDifference(0.2) };

/** INVENTED figures: developer of 195 s in a window of 20 s, then a wash. */
const plan = runOf([stageOf(warm), washOf({ time: seconds(190) })], {
  film: [{ format: "120", count: 2 }],
});
const summaryOf = (run = livedRun(plan)) => sessionSummary(benchWith(run), run, sheet);

test("plan and what happened, in seconds from the first pour", () => {
  const [developer, wash] = summaryOf(livedRun(plan, { off: { 0: 9 } })).stages;
  // The pour opens at 0, its window of 20 s has its middle at 10 s.
  expect(developer).toMatchObject({ planned_s: 195, plan_from_s: 10, plan_to_s: 205 });
  expect(wash).toMatchObject({ planned_s: 190, plan_from_s: 215, plan_to_s: 405 });
  // Lived: in 10 s after its pour, nine seconds too long, ten seconds to the next.
  expect(developer).toMatchObject({ real_from_s: 10, real_to_s: 214, real_s: 204 });
  expect(wash).toMatchObject({ real_from_s: 224, real_to_s: 414, real_s: 190 });
});

test("a bath that drift moved keeps both times", () => {
  const moved = runOf([stageOf({ time: seconds(210), timeMeant: seconds(195) })]);
  expect(summaryOf(moved).stages[0]).toMatchObject({
    planned_s: 195,
    moved_s: 210,
    plan_to_s: 205,
  });
});

test("a reading keeps both values and where it lies", () => {
  const lived = livedRun(plan, { read: [{ stage: 0, into: 60, temperature: 37.9 }] });
  const run = {
    ...lived,
    readings: lived.readings.map((one) => ({ ...one, read: celsius(38.3), thermometer: "red" })),
  };
  expect(summaryOf(run).stages[0]?.readings).toEqual([
    {
      into_s: 60,
      temp_c: 37.9,
      read_c: 38.3,
      thermometer: "red",
      unverified: null,
      verdict: "below",
      asked: null,
    },
  ]);
});

test("beats are those that were told while the bath was in", () => {
  const silent = { beatsSilent: [seconds(60)], beatsLate: [seconds(120)] };
  const run = livedRun(runOf([stageOf(silent)]), { off: { 0: -40 } });
  expect(summaryOf(run).stages[0]?.beats).toEqual({
    planned_s: [0, 60, 90, 120, 150, 180],
    given_s: [0, 90, 150],
    silent_s: [60],
    late_s: [120],
    each_s: 5,
    first_s: 30,
  });
});

test.each([
  {
    what: "nothing amiss",
    run: livedRun(plan, { read: [{ stage: 0, into: 9, temperature: 38.2 }] }),
    rule: "nothing-amiss",
  },
  { what: "nothing read", run: livedRun(plan), rule: "developer-not-read" },
  {
    what: "a cold developer before a short wash",
    run: livedRun(plan, { off: { 1: -40 }, read: [{ stage: 0, into: 9, temperature: 37 }] }),
    rule: "developer-temperature",
  },
  {
    what: "a wash that hardly was one, after a cold developer",
    run: livedRun(plan, { off: { 1: -150 }, read: [{ stage: 0, into: 9, temperature: 37 }] }),
    rule: "short-minimum",
  },
  { what: "a long developer", run: livedRun(plan, { off: { 0: 20 } }), rule: "developer-time" },
  { what: "a short wash", run: livedRun(plan, { off: { 1: -40 } }), rule: "short-minimum" },
  { what: "under way", run: plan, rule: "still-running" },
  {
    what: "given up",
    run: { ...plan, ending: "stopped" as const, endedAt: at(200) },
    rule: "given-up",
  },
])("the lesson of $what goes by the rule $rule", ({ run, rule }) => {
  const { lesson } = summaryOf(run);
  expect(lesson.rule).toBe(rule);
  if (!["nothing-amiss", "still-running"].includes(rule)) {
    expect(lesson.because.length).toBeGreaterThan(0);
  }
});

test("where the time was moved for a cold developer, the lesson says so", () => {
  const time = { time: seconds(213), timeMeant: seconds(205) };
  const moved = runOf([stageOf({ ...warm, ...time }), washOf()]);
  const run = livedRun(moved, { read: [{ stage: 0, into: 9, temperature: 37 }] });
  const { lesson } = summaryOf(run);
  expect(lesson.rule).toBe("developer-temperature");
  expect(lesson.text).toContain("moved to 3:33");
  expect(lesson.text).not.toContain("just before the pour");
});

test("no lesson is sure of anything", () => {
  const sure = fc.property(arbitrarySession, ({ bench, run }) => {
    const { lesson } = sessionSummary(bench, run, sheet);
    expect(lesson.text).not.toMatch(/\b(certainly|proves?|always|never|must have|because of)\b/i);
  });
  fc.assert(sure, { numRuns: 200 });
});

test("every session is what its schema says, and survives JSON", () => {
  const fine = fc.property(arbitrarySession, ({ bench, run }) => {
    const summary = sessionSummary(bench, run, sheet);
    expect(sessionSchema.parse(JSON.parse(JSON.stringify(summary)))).toEqual(summary);
  });
  fc.assert(fine, { numRuns: 300 });
});

test("nothing private is in a shared form, whatever was said and however it was labelled", () => {
  const hidden = fc.property(arbitrarySession, ({ bench, run }) => {
    const summary = sessionSummary(bench, run, sheet);
    const { shared, leftOut } = shareWith(summary);
    const text = JSON.stringify(sharedSessionSchema.parse(shared)).toLowerCase();
    for (const secret of Object.values(secrets)) expect(text).not.toContain(secret.toLowerCase());
    expect(leftOut.notes).toBeGreaterThanOrEqual(1);
    expect(leftOut.people).toBeGreaterThanOrEqual(1);
    expect(forSharing(summary)).toEqual(shared);
    // All the rest is there, to the last figure.
    expect(shared.stages.map(({ real_s }) => real_s)).toEqual(
      summary.stages.map(({ real_s }) => real_s),
    );
  });
  fc.assert(hidden, { numRuns: 300 });
});

test("a name that was put into a label is taken out, and counted", () => {
  const run = livedRun({
    ...plan,
    tank: "Dora's tank",
    people: [{ name: "Dora", did: ["poured"] }],
  });
  const { shared, leftOut } = shareWith(summaryOf(run));
  expect(shared.tank).toBe("(name left out) tank");
  expect(leftOut.names).toBe(1);
});

test("what was told of the film later stands in it with what it hints at", () => {
  const run = { ...livedRun(plan), firstLook: { at: at(40_000), edgeNumbers: "faint" as const } };
  const { first_look, lesson } = summaryOf(run);
  expect(first_look).toMatchObject({ on: "2026-11-29", edge_numbers: "faint", clear_parts: null });
  expect(first_look?.hints[0]?.source).toContain("edge numbers are printed at the factory");
  expect(lesson.rule).toBe("faint-edge");
});
