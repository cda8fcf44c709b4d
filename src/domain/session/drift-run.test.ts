import fc from "fast-check";
import { expect, test } from "vitest";
import { at, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { ok } from "../result.ts";
import type { TimeLaw } from "../temperature/time-law.ts";
import { stageClock } from "../timing/stage-clock.ts";
import {
  celsius,
  celsiusDifference,
  type Instant,
  seconds,
  secondsBetween,
} from "../units/quantity.ts";
import { nextEvent } from "./advance.ts";
import { driftStage, moveEnd, oddReading, pouringOut, stageAt, weighAnew } from "./drift-run.ts";
import { pouredIn, pouredOut } from "./hear.ts";
import { type ReadingTaken, type Run, runSchema } from "./run.ts";

/** Invented: the rate doubles for 10 °C, and the sheet lets the time be changed. */
const law: TimeLaw = { kind: "q10", q10: 2, origin: { kind: "invented" } };
const warm = {
  time: seconds(300),
  temperature: celsius(20),
  tolerance: celsiusDifference(0.2),
  temperatureOrigin: { kind: "invented" as const },
  timeLaw: law,
  compensation: true,
};

/** In the developer since second 0. */
const wet = (change = {}, run: Partial<Run> = {}): Run =>
  pouredIn(runOf([stageOf({ ...warm, ...change }), washOf()], { lead: 0, ...run }), at(0));

const reading = (second: number, temperature: number): ReadingTaken => ({
  at: at(second),
  stage: 0,
  bath: "developer",
  temperature: celsius(temperature),
});

/** A new reading: asked about first, then logged and weighed with those before it. */
function weigh(run: Run, index: number, fresh: ReadingTaken, now: Instant, sure: boolean) {
  const odd = sure ? undefined : oddReading(run, index, fresh, now);
  if (odd === false) return undefined;
  return odd === undefined
    ? weighAnew({ ...run, readings: [...run.readings, fresh] }, index, now)
    : ok({ kind: "question" as const, question: odd });
}

const decided = (run: Run, second: number, temperature: number, sure = true) => {
  const found = weigh(run, 0, reading(second, temperature), at(second), sure);
  return found?.ok === true ? found.value : undefined;
};

test("10 °C colder than the aim takes twice as long: 2 by the law itself, asked about only when odd", () => {
  const decision = decided(wet(), 1, 10.5);
  expect(decision).toMatchObject({ kind: "replan" });
  const time = decision?.kind === "replan" ? decision.time : 0;
  expect(time).toBeCloseTo(300 * 2 ** 0.95, 6);
});

test("a bath at its aim changes nothing", () => {
  expect(decided(wet(), 60, 20)).toMatchObject({ kind: "nothing" });
});

test.each([
  ["not allowed by the sheet", { compensation: undefined }, "not-allowed"],
  ["no law", { timeLaw: undefined }, "estimate-only"],
])("%s: the size is stated and the person chooses", (_, change, why) => {
  expect(decided(wet(change), 60, 18)).toMatchObject({
    kind: "state",
    why,
    offers: ["keep", "adjust", "log"],
  });
});

test("colour always says what time cannot restore; black-and-white does not", () => {
  const colour = decided(wet(), 60, 18);
  const grey = decided(wet({}, { process: "black-and-white" }), 60, 18);
  expect(colour).toMatchObject({
    caution: "Time restores density, not the balance of the layers.",
  });
  expect(grey).toMatchObject({ kind: "replan", caution: undefined });
});

test.each([
  ["before the pour", runOf([stageOf(warm)])],
  ["a bath whose time is a minimum", wet({ sense: "at least" })],
  ["a bath that is no developer", wet({ kind: "stop" })],
  ["a bath with no temperature", wet({ temperature: undefined })],
  ["a rehearsal", wet({}, { rehearsal: { speed: 10 } })],
])("no drift is worked out: %s", (_, run) => {
  expect(driftStage(run, 0)).toBeUndefined();
  expect(weigh(run, 0, reading(60, 18), at(60), true)).toBeUndefined();
});

test("a moved end moves the pour-out cue, stands in the record, and keeps what was meant", () => {
  const moved = moveEnd(wet(), 0, seconds(330.0004), "colder", at(60));
  const [stage] = moved.stages;
  expect(stage).toMatchObject({ time: 330, timeMeant: 300, timeBase: 300 });
  expect(stage?.corrections).toEqual([{ kind: "drift", by: 30, how: "5:00 became 5:30: colder" }]);
  expect(moved.notes.at(-1)).toEqual({ at: at(60), text: "drift: colder" });
  const again = moveEnd(moved, 0, seconds(320), "less cold", at(90));
  expect(again.stages[0]).toMatchObject({ time: 320, timeMeant: 300 });
  expect(again.stages[0]?.corrections).toHaveLength(1);
  expect(runSchema.parse(JSON.parse(JSON.stringify(again)))).toEqual(again);
});

test("an end moved to this very moment is told at once", () => {
  const told = { ...wet(), cuedUntil: at(100.001) };
  const moved = moveEnd(told, 0, seconds(110), "enough", at(100));
  expect(nextEvent(moved)).toMatchObject({ kind: "cues", at: at(100) });
});

test("once pouring out has been called, nothing is moved", () => {
  expect(pouringOut(wet(), 0, at(289))).toBe(false);
  expect(pouringOut(wet(), 0, at(290))).toBe(true);
  expect(pouringOut(pouredOut(wet(), at(280)), 0, at(281))).toBe(true);
});

test("a reading belongs to the bath film was in when it was taken", () => {
  const washing = pouredIn(pouredOut(wet(), at(300)), at(320));
  expect(stageAt(washing, at(60))).toBe(0);
  expect(stageAt(washing, at(330))).toBe(1);
  expect(stageAt(wet(), at(-30))).toBe(0);
});

test("re-planning never moves a cue into the past, whatever is read and whenever", () => {
  const path = fc.array(
    fc.tuple(fc.integer({ min: 1, max: 280 }), fc.integer({ min: 110, max: 290 })),
    {
      minLength: 1,
      maxLength: 12,
    },
  );
  fc.assert(
    fc.property(path, (readings) => {
      let run = wet();
      for (const [second, tenths] of readings.toSorted(([a], [b]) => a - b)) {
        const now = at(second);
        if (pouringOut(run, 0, now)) break;
        const decision = decided(run, second, tenths / 10);
        run = { ...run, readings: [...run.readings, reading(second, tenths / 10)] };
        if (decision?.kind !== "replan") continue;
        run = moveEnd(run, 0, decision.time, "drift", now);
        const stage = run.stages[0];
        if (stage?.pourAt === undefined) throw new Error("it was poured");
        const { pourOut } = stageClock(stage, stage.pourAt, run.window);
        expect(secondsBetween(now, pourOut)).toBeGreaterThanOrEqual(-0.001);
      }
    }),
  );
});

test("drift that goes as far above the aim as below costs nothing", () => {
  let run = wet({ tolerance: undefined });
  for (const [second, temperature] of [
    [0, 20.5],
    [150, 20],
    [299, 19.5],
  ] as const) {
    run = { ...run, readings: [...run.readings, reading(second, temperature)] };
  }
  const before = { ...run, readings: run.readings.slice(0, -1) };
  const last = weigh(before, 0, reading(289, 19.5), at(289), true);
  expect(last?.ok === true && last.value.kind).toBe("nothing");
});
