import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { rollSchema } from "../../domain/film/roll.ts";
import { rollNames } from "../../domain/film/roll-names.ts";
import type { Listening } from "../reader.ts";
import { readNewRolls } from "./new-rolls.ts";
import { readMark } from "./process-mark.ts";
import { readReels } from "./reels.ts";
import { readRolls } from "./rolls.ts";
import { readTraits } from "./traits.ts";

test.each([
  ["C-41", "C-41"],
  ["c41", "C-41"],
  ["E6", "E-6"],
  ["ecn 2", "ECN-2"],
  ["black and white", "black-and-white"],
  ["B&W", "black-and-white"],
  ["colour negative", "nothing"],
  ["slide film", "nothing"],
])("%j on a cassette is %s", (phrase, mark) => {
  expect(readWhole(readMark, phrase)).toBe(mark);
});

test.each([
  ["marked c-41", { marked: "C-41" }],
  ["C-41 pushed one stop called beach", { marked: "C-41", push: 1, name: "beach" }],
  ["rated 400, important", { rated: 400, important: true }],
  ["is black and white and not important", { marked: "black-and-white", important: false }],
  ["pulled two stops", { push: -2 }],
  ["ECN-2 without backing", { marked: "ECN-2", blackBacked: false }],
  ["outdated, named north pier, iso 50", { doubtful: true, name: "north pier", rated: 50 }],
  ["pushed 1.5 stops", { push: 1.5 }],
  ["beautiful", "nothing"],
])("%j says %j", (phrase, traits) => {
  expect(readWhole(readTraits, phrase)).toEqual(traits);
});

const two = [{ count: 2, format: "120" }];
test.each([
  ["two rolls of 120 C-41", [{ film: two, traits: { marked: "C-41" } }]],
  ["two C-41 120", [{ film: two, traits: { marked: "C-41" } }]],
  [
    "two 120 C-41 called beach and a 135-36 marked e-6 important",
    [
      { film: two, traits: { marked: "C-41", name: "beach" } },
      { film: [{ count: 1, format: "135-36" }], traits: { marked: "E-6", important: true } },
    ],
  ],
  [
    "two 120 and a 135 C-41",
    [{ film: [...two, { count: 1, format: "135" }], traits: { marked: "C-41" } }],
  ],
  ["three rolls", [{ film: [{ count: 3 }], traits: {} }]],
  ["two", "nothing"],
  ["part A", "nothing"],
])("%j is to be written down", (phrase, rolls) => {
  expect(readWhole(readNewRolls, phrase)).toEqual(rolls);
});

const named = (number: number, name?: string) => ({
  ...rollSchema.parse({ id: `roll-${number}`, number, format: "120" }),
  ...(name === undefined ? {} : { name }),
});
const rolls = rollNames([named(1, "beach 1"), named(2, "beach 2"), named(3), named(4, "dunes")]);

const meant = (phrase: string) =>
  readWhole(
    (words, from, listening: Listening) => readRolls(words, from, { ...listening, rolls }),
    phrase,
  );

test.each([
  ["roll 3", ["roll-3"], []],
  ["roll three", ["roll-3"], []],
  ["rolls 1 and 3", ["roll-1", "roll-3"], []],
  ["rolls 1, 2 and 4", ["roll-1", "roll-2", "roll-4"], []],
  ["rolls 2 to 4", ["roll-2", "roll-3", "roll-4"], []],
  ["beach", ["roll-1", "roll-2"], []],
  ["beach two", ["roll-2"], []],
  ["roll beach and dunes", ["roll-1", "roll-2", "roll-4"], []],
  ["dunes and roll 3", ["roll-4", "roll-3"], []],
  ["all my rolls", ["roll-1", "roll-2", "roll-3", "roll-4"], []],
  ["roll 99", [], ["99"]],
  ["roll -2", [], ["-2"]],
  ["roll tulip", [], ["tulip"]],
])("%j means %j", (phrase, ids, unknown) => {
  expect(meant(phrase)).toEqual({ ids, unknown });
});

test.each(["two rolls", "roll 36", "rolls of 120", "tulip", "3"])(
  "%j means no roll of the list",
  (phrase) => {
    expect(meant(phrase)).toBe("nothing");
  },
);

const small = ["135-36", "135-24", "135-12"];
test.each([
  ["two 35 mm reels of 300 ml each", [[{ count: 2, takes: small, rolls: 1, ml: 300, each: true }]]],
  ["one 120 reel 500 ml", [[{ count: 1, takes: ["120"], rolls: 1, ml: 500 }]]],
  ["a reel for 120 with 500 ml", [[{ count: 1, takes: ["120"], rolls: 1, ml: 500 }]]],
  ["two 135 reels", [[{ count: 2, takes: small, rolls: 1 }]]],
  [
    "two 35 mm reels of 300 ml each or one 120 reel of 500 ml for two rolls",
    [
      [{ count: 2, takes: small, rolls: 1, ml: 300, each: true }],
      [{ count: 1, takes: ["120"], rolls: 2, ml: 500 }],
    ],
  ],
  [
    "one 120 reel of half a litre and a 35 mm reel of 250 ml",
    [
      [
        { count: 1, takes: ["120"], rolls: 1, ml: 500 },
        { count: 1, takes: small, rolls: 1, ml: 250 },
      ],
    ],
  ],
  ["three rolls", "nothing"],
])("%j are reels", (phrase, layouts) => {
  expect(readWhole(readReels, phrase)).toEqual(layouts);
});

test("ounces of unknown country are asked about", () => {
  const read = readWhole(readReels, "two 35 mm reels of 8 ounces each");
  expect(read).toMatchObject({
    unsettled: "country",
    choices: [{ word: "us" }, { word: "imperial" }],
  });
});
