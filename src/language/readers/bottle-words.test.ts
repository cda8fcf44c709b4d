import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { readRole } from "./bottle-role.ts";
import { readContainer } from "./container.ts";
import { readDateOrUnknown } from "./date-or-unknown.ts";
import { readDrain } from "./drain.ts";
import { readFill } from "./fill.ts";
import { readHeld } from "./held-name.ts";
import { readLookSign } from "./look-sign.ts";
import { readNone } from "./none.ts";
import { readPlace } from "./place.ts";
import { readStops } from "./stops.ts";
import { readVerdict } from "./verdict.ts";

const bottle = new Map([["acorn", "bottle-1"]]);
const names = { bottle, sheet: new Map<string, string>(), tank: new Map<string, string>() };
const NONE = "nothing";

test.each([
  ["full", "full"],
  ["full to the neck", "full"],
  ["nearly full", "some air"],
  ["three quarters full", "some air"],
  ["half full", "half"],
  ["half empty", "half"],
  ["nearly empty", "less"],
  ["green", NONE],
])("fill: %s is %s", (phrase, value) => {
  expect(readWhole(readFill, phrase)).toBe(value);
});

test.each([
  ["a glass", NONE],
  ["glass bottle", "glass"],
  ["accordion", "collapsing"],
  ["cola bottle", "drink"],
  ["cycling bottle", "drink"],
])("container: %s is %s", (phrase, value) => {
  expect(readWhole(readContainer, phrase)).toBe(value);
});

test.each([
  ["pushed one stop", 1],
  ["push two", 2],
  ["push 1", 1],
  ["pulled one stop", -1],
  ["pull 2", -2],
  ["+1", 1],
  ["-1", -1],
  ["plus one", 1],
  ["two stops", 2],
  ["two stops under", -2],
  ["half a stop", 0.5],
  ["normal", 0],
  ["two", NONE],
  ["push", NONE],
])("stops: %s is %s", (phrase, value) => {
  expect(readWhole(readStops, phrase)).toBe(value);
});

test.each([
  ["I don't know", "unknown"],
  ["no idea", "unknown"],
  ["yesterday", "2026-11-27"],
  ["3 May 1850", "1850-05-03"],
])("date: %s is %s", (phrase, value) => {
  expect(readWhole(readDateOrUnknown, phrase)).toBe(value);
});

test.each([
  ["Acorn", "bottle-1"],
  ["the acorn bottle", "bottle-1"],
  ["Dora", '"dora"'],
  ["undo", NONE],
  ["the name is on the other side", NONE],
])("in hand: %s is %s", (phrase, value) => {
  expect(readWhole(readHeld, phrase, { names })).toBe(value);
});

test.each([
  ["in the cellar", "in the cellar"],
  ["under the sink", "under the sink"],
  ["into the fridge", "in the fridge"],
  ["cellar", NONE],
])("place: %s is %s", (phrase, value) => {
  expect(readWhole(readPlace, phrase)).toBe(value);
});

test("small words about a bottle", () => {
  expect(readWhole(readRole, "stock solution")).toBe("stock");
  expect(readWhole(readNone, "none of it")).toBe(true);
  expect(readWhole(readVerdict, "passed")).toBe(true);
  expect(readWhole(readVerdict, "patchy")).toBe(false);
  expect(readWhole(readDrain, "septic tank")).toBe("septic");
  expect(readWhole(readLookSign, "gone brown")).toBe("dark");
});
