import { expect, test } from "vitest";
import type { Given } from "../domain/reminders/give.ts";
import { instant, seconds } from "../domain/units/quantity.ts";
import type { UndoStep } from "./record.ts";
import { undoAfter } from "./undo-after.ts";

const at = instant(0);
const step = (label: string, ...path: readonly string[]): UndoStep => ({
  label,
  at,
  changes: [{ kind: "drop", path }],
});
const told = (id: string): Given => ({
  event: {
    kind: "reminder",
    at,
    reminder: { id, text: "", owner: "", rule: { kind: "once" } },
  },
  late: seconds(0),
});

test("a step that touches a told reminder goes with all before it", () => {
  const steps = [
    step("mix", "bottles", "b1"),
    step("remind", "reminders", "m1"),
    step("note", "notes"),
  ];
  expect(undoAfter(steps, [told("m1")]).map(({ label }) => label)).toEqual(["note"]);
});

test("other steps stay", () => {
  const steps = [step("mix", "bottles", "b1"), step("remind", "reminders", "m2")];
  expect(undoAfter(steps, [told("m1")])).toEqual(steps);
  expect(undoAfter(steps, [])).toEqual(steps);
});

test("a step that holds all reminders, or the daily message that was told, goes", () => {
  const daily: Given = {
    event: { kind: "daily", at, notices: [], reminders: [] },
    late: seconds(0),
  };
  expect(undoAfter([step("all", "reminders")], [told("m1")])).toEqual([]);
  expect(undoAfter([step("snooze", "dailyLook", "told")], [daily])).toEqual([]);
});
