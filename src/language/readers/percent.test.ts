import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { readPercent } from "./percent.ts";

test.each([
  ["28 %", { percent: 28 }],
  ["28%", { percent: 28 }],
  ["28 percent", { percent: 28 }],
  ["twenty eight per cent", { percent: 28 }],
  ["half a percent", { percent: 0.5 }],
  ["28", { percent: 28 }],
  ["10% w/v", { percent: 10, kind: "w/v" }],
  ["10 percent weight by volume", { percent: 10, kind: "w/v" }],
  ["28 percent by weight", { percent: 28, kind: "w/w" }],
  ["28% W/W", { percent: 28, kind: "w/w" }],
  ["80 percent by volume", { percent: 80, kind: "v/v" }],
  ["-3 %", { percent: -3 }],
  ["300 %", { percent: 300 }],
])("%j is %j", (phrase, value) => {
  expect(readWhole(readPercent, phrase)).toEqual(value);
});

test.each(["1e309 %", "nan percent"])("%j is refused", (phrase) => {
  expect(readWhole(readPercent, phrase)).toHaveProperty("unreadable");
});

test.each(["%", "percent", "by weight"])("%j is no percentage", (phrase) => {
  expect(readWhole(readPercent, phrase)).toBe("nothing");
});
