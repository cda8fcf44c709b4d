import { expect, test } from "vitest";
import { at, runOf, stageOf } from "../../../../test/support/runs.ts";
import { readReminderKey, readRunKey, reminderKey, runKey } from "./asked.ts";

test("a moment of a run is read as it was written", () => {
  const run = runOf([stageOf()]);
  expect(readRunKey(runKey(run, at(0)))).toEqual({ run: "run-1", stage: 0, letter: "w" });
  expect(readRunKey(runKey(run, at(31)))).toEqual({ run: "run-1", stage: 0, letter: "p" });
  expect(readRunKey("nothing of the kind")).toBeUndefined();
});

test("a told reminder is read as it was written", () => {
  expect(readReminderKey(reminderKey("reminder-4", at(0)))).toEqual({
    id: "reminder-4",
    due: at(0),
  });
  expect(readReminderKey("reminder")).toBeUndefined();
});
