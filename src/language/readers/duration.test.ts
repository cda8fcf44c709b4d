import fc from "fast-check";
import { expect, test } from "vitest";
import { choicesOf, readAll, readWhole } from "../../../test/support/reading.ts";
import { spell } from "../../../test/support/spell.ts";
import { seconds } from "../../domain/units/quantity.ts";
import { sayDuration, showDuration } from "../../domain/units/show.ts";
import { readDuration } from "./duration.ts";

test.each([
  ["3:15", 195],
  ["0:45", 45],
  ["1:30:00", 5400],
  ["-3:15", -195],
  ["three fifteen", 195],
  ["three thirty", 210],
  ["six thirty", 390],
  ["two oh five", 125],
  ["3m15s", 195],
  ["3m15", 195],
  ["3 min 15", 195],
  ["3 minutes 15 seconds", 195],
  ["three minutes and fifteen seconds", 195],
  ["three minutes fifteen", 195],
  ["195 seconds", 195],
  ["195 s", 195],
  ["90s", 90],
  ["a minute", 60],
  ["a minute and a half", 90],
  ["two and a half minutes", 150],
  ["3½ minutes", 210],
  ["a couple of minutes", 120],
  ["half a minute", 30],
  ["half an hour", 1800],
  ["a quarter of an hour", 900],
  ["an hour and a half", 5400],
  ["an hour and a quarter", 4500],
  ["1h30", 5400],
  ["1 h 05 min", 3900],
  ["1 hour 2 minutes 3 seconds", 3723],
  ["one hour thirty", 5400],
  ["-45 s", -45],
  ["-1 h 05 min", -3900],
  ["minus 3 minutes 15 seconds", -195],
  ["0 s", 0],
  ["three days", 259_200],
  ["a fortnight", 1_209_600],
])("%j is %d s", (phrase, value) => {
  expect(readWhole(readDuration, phrase)).toBe(value);
});

test("a bare number asks for its unit", () => {
  expect(choicesOf(readWhole(readDuration, "5"))).toEqual({ minutes: 300, seconds: 5 });
  expect(choicesOf(readWhole(readDuration, "thirty five"))).toEqual({ minutes: 2100, seconds: 35 });
});

test.each(["3:75", "1:75:00", "1e309 s", "1e308 hours", "1e308", "nan minutes"])(
  "%j is refused",
  (phrase) => {
    expect(readWhole(readDuration, phrase)).toHaveProperty("unreadable");
  },
);

test.each(["minutes", "a", "s", "three five", "3:1", "half"])(
  "%j is no whole duration",
  (phrase) => {
    const value = readWhole(readDuration, phrase);
    expect(typeof value === "number" ? value : "nothing").toBe("nothing");
  },
);

test("the shorter readings stay open", () => {
  expect(
    readAll(readDuration, "3 min 15").map(([value, next]) => [choicesOf(value), next]),
  ).toEqual([
    [195, 3],
    [180, 2],
  ]);
});

test("what is shown or said reads back", () => {
  fc.assert(
    fc.property(fc.integer({ min: -100_000, max: 100_000 }), (amount) => {
      const back = readWhole(readDuration, showDuration(seconds(amount)));
      const lost = Math.abs(amount) < 3600 ? 0 : 30;
      expect(Math.abs((back as number) - amount)).toBeLessThanOrEqual(lost);
      if (amount >= 0) {
        expect(readWhole(readDuration, sayDuration(seconds(amount)))).toBe(amount);
      }
    }),
  );
});

test("minutes and seconds in words are minutes and seconds", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 19 }), fc.integer({ min: 10, max: 59 }), (min, sec) => {
      expect(readWhole(readDuration, `${spell(min)} ${spell(sec)}`)).toBe(min * 60 + sec);
    }),
  );
});
