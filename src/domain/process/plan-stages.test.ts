import { expect, test } from "vitest";
import { celsius, seconds } from "../units/quantity.ts";
import { DRAIN, planStage, VENT } from "./plan-stages.ts";
import type { Bath } from "./sheet.ts";

const origin = { kind: "sheet", source: "garden" } as const;
const bathOf = (change: Partial<Bath> = {}): Bath => ({
  name: "developer",
  kind: "developer",
  sense: "exact",
  time: { value: seconds(200), origin },
  temperature: { value: celsius(38), origin },
  ...change,
});

function stageOf(...parameters: Parameters<typeof planStage>) {
  const planned = planStage(...parameters);
  if (!planned.ok) throw new Error(planned.trouble.kind);
  return planned.stage;
}

test("pouring out takes the last 10 s: SS0514 Basic Color Photography, p. 2-13, para. b(2) (read)", () => {
  expect(DRAIN).toEqual({
    value: 10,
    origin: {
      kind: "published",
      source: "SS0514 Basic Color Photography, p. 2-13, last 10 s drain (read)",
    },
  });
  expect(stageOf(bathOf(), {})).toMatchObject({ drain: 10, drainOrigin: DRAIN.origin });
});

test("a sheet with a drain of its own outranks that", () => {
  expect(stageOf(bathOf({ drain: { value: seconds(15), origin } }), {})).toMatchObject({
    drain: 15,
    drainOrigin: origin,
  });
});

test("blix is vented at 10 s and nothing else is: common practice, no source", () => {
  expect(VENT).toEqual({ value: 10, origin: { kind: "common practice" } });
  expect(stageOf(bathOf({ name: "blix", kind: "blix" }), {}).vent).toBe(10);
  expect(stageOf(bathOf(), {}).vent).toBeUndefined();
  const vent = { value: seconds(25), origin };
  expect(stageOf(bathOf({ kind: "blix", vent }), {})).toMatchObject({
    vent: 25,
    ventOrigin: origin,
  });
});

test("what the user says outranks the sheet, and its origin says so", () => {
  const stage = stageOf(bathOf(), { time: seconds(210), temperature: celsius(38.9) });
  expect(stage).toMatchObject({
    time: 210,
    timeOrigin: { kind: "told" },
    temperature: 38.9,
    temperatureOrigin: { kind: "told" },
  });
});

test("without a word the sheet's figures stand, each with its origin", () => {
  const agitation = {
    initial: { value: seconds(30), origin },
    every: { value: seconds(60), origin: { kind: "common practice" } as const },
    each: { value: seconds(5), origin },
  };
  const stage = stageOf(bathOf({ agitation }), {});
  expect(stage).toMatchObject({ time: 200, timeOrigin: origin, temperature: 38 });
  // The weaker of the two origins is the one that is shown.
  expect(stage.agitation).toEqual({
    initial: 30,
    every: 60,
    each: 5,
    origin: { kind: "common practice" },
  });
});

test("a bath without a time cannot be planned until one is given", () => {
  const timeless = bathOf({ time: undefined });
  expect(planStage(timeless, {})).toEqual({
    ok: false,
    trouble: { kind: "no-time", bath: "developer" },
  });
  expect(planStage(timeless, { time: seconds(60) }).ok).toBe(true);
});

test.each([
  { time: 10, ok: false },
  { time: 9, ok: false },
  { time: -5, ok: false },
  { time: 10.5, ok: true },
])("$time s with a drain of 10 s: $ok", ({ time, ok }) => {
  const planned = planStage(bathOf(), { time: seconds(time) });
  expect(planned.ok).toBe(ok);
  if (!planned.ok) {
    expect(planned.trouble).toEqual({ kind: "too-short", bath: "developer", time, drain: 10 });
  }
});
