import { expect, test } from "vitest";
import { bottleOf, developerOf } from "../../../test/support/bottles.ts";
import type { Sheet } from "../process/sheet.ts";
import { instant, units } from "../units/quantity.ts";
import type { Bottle } from "./bottle.ts";
import { lookAt } from "./look.ts";
import { verdictOf } from "./verdict.ts";

/** INVENTED: a litre does 8 units and keeps 40 days; mixed on 1 November 2026. */
const sheet: Sheet = {
  id: "s",
  name: "s",
  called: [],
  process: "C-41",
  invented: true,
  baths: [developerOf()],
};

const judge = (change: Partial<Bottle>, on = "2026-11-10", by: Sheet | undefined = sheet) =>
  verdictOf(lookAt(bottleOf(change), { sheetOf: () => by, keeping: [], capacity: [] }, on));

const failed = { at: instant(0), on: "2026-11-09", by: "Ines", passed: false };
const passed = { ...failed, on: "2026-12-20", passed: true };
const suspect = { since: instant(0), why: "brown" };

test.each<[string, Partial<Bottle>, string | undefined, string, string]>([
  ["half used", { used: units(4) }, undefined, "return", "good"],
  ["nearly done", { used: units(7) }, undefined, "return", "near-limit"],
  ["done", { used: units(8) }, undefined, "retire", "film-done"],
  ["done and replenished", { used: units(9), replenished: units(6) }, undefined, "return", "good"],
  ["near its age", {}, "2026-12-08", "return", "near-limit"],
  ["past its age", {}, "2026-12-20", "retire", "too-old"],
  ["past its age but tested", { tests: [passed] }, "2026-12-20", "return", "near-limit"],
  ["tested and failed", { tests: [failed] }, undefined, "retire", "failed-test"],
  ["suspect", { suspect }, undefined, "test", "suspect"],
  ["foul", { suspect: { ...suspect, contaminated: true } }, undefined, "retire", "contaminated"],
  ["of unknown date", { dateAssumed: "guess" }, undefined, "test", "unproven"],
  ["a concentrate", { role: "concentrate" }, undefined, "retire", "one-way"],
  ["retired", { retiredOn: "2026-11-05" }, undefined, "retire", "retired"],
])("a bottle %s", (_, change, on, verdict, why) => {
  expect(judge(change, on)).toEqual({ verdict, why });
});

test("what nobody knows a limit for is the user's own call", () => {
  const { verdict } = verdictOf(
    lookAt(bottleOf(), { sheetOf: () => undefined, keeping: [], capacity: [] }, "2026-11-10"),
  );
  expect(verdict).toBe("ask");
});
