import { expect, test } from "vitest";
import { livedRun } from "../../../test/support/lived-run.ts";
import { at, benchWith, evening, runOf, stageOf } from "../../../test/support/runs.ts";
import { planDaily } from "../reminders/daily-message.ts";
import { noLooks } from "../reminders/looks.ts";
import type { Bench } from "../session/bench.ts";
import type { Run } from "../session/run.ts";
import { instant } from "../units/quantity.ts";
import { type LookTime, looksDone, planLooks } from "./plan-looks.ts";

/** Over at 19:34:20 on 28 November 2026, in Lisbon as in UTC. */
const run = livedRun(runOf([stageOf()]));
const bench = (lookTime?: LookTime, change: Partial<Run> = {}): Bench => ({
  ...benchWith({ ...run, ...change }),
  ...(lookTime === undefined ? {} : { lookTime }),
});
const nine = (day: number) => instant(Date.UTC(2026, 10, day, 9));
const nextMessage = (one: Bench) => planDaily(one, at(300), noLooks).dailyLook.next;

test.each<[string, LookTime | undefined, number | undefined]>([
  ["as is usual, the next morning", undefined, nine(29)],
  ["two days later", { kind: "daily", days: 2 }, nine(30)],
  ["never", { kind: "off" }, undefined],
  [
    "at an hour, which is no part of the message",
    { kind: "clock", hour: 21, minute: 0 },
    undefined,
  ],
])("%s", (_, time, next) => {
  expect(nextMessage(bench(time))).toBe(next);
});

test.each<[string, Partial<Run>]>([
  ["a look that was taken", { firstLook: { at: at(400) } }],
  ["a rehearsal", { rehearsal: { speed: 2 } }],
  ["film that never went in", { nothingIn: true }],
  ["a run that was stopped", { ending: "stopped" }],
])("nothing is said of %s", (_, change) => {
  expect(nextMessage(bench(undefined, change))).toBe(undefined);
});

test("a run of long ago is not asked about any more", () => {
  const later = instant(evening + 20 * 86_400_000);
  expect(planDaily(bench(), later, noLooks).dailyLook.next).toBe(undefined);
});

test.each([
  { hour: 21, minute: 0, due: Date.UTC(2026, 10, 28, 21) },
  { hour: 8, minute: 30, due: Date.UTC(2026, 10, 29, 8, 30) },
  // Film hangs wet at 19:40.
  { hour: 19, minute: 40, due: Date.UTC(2026, 10, 29, 19, 40) },
])("asked for at $hour:$minute, it is due at the first such time the film is dry", (time) => {
  const planned = planLooks(bench({ kind: "clock", ...time }), at(300));
  expect(planned.reminders["look-run-1"]?.due).toEqual({ at: time.due });
  expect(planLooks(planned, at(301))).toBe(planned);
});

test("a reminder that was forgotten does not come back, and one for a look taken goes", () => {
  const planned = planLooks(bench({ kind: "clock", hour: 21, minute: 0 }), at(300));
  const forgotten: Bench = { ...planned, reminders: {} };
  expect(planLooks(forgotten, at(301))).toBe(forgotten);
  expect(looksDone(planned, "run-1").reminders).toEqual({});
  expect(looksDone(forgotten, "run-1")).toBe(forgotten);
});
