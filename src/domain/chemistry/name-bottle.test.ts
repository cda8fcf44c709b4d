import { expect, test } from "vitest";
import { bottleMarks, bottleNames } from "../../data/bottle-names.ts";
import { freeName, soundsLike } from "./name-bottle.ts";

test.each([
  ["Dora", "Nora"],
  ["Ember", "Amber"],
  ["Falcon", "Falken"],
  ["Saddle", "Paddle"],
  ["Acorn", "acorn"],
  ["Harbour", "Harbor"],
  ["Kettle", "Cattle"],
  ["Lantern", " lantern "],
])("%s sounds like %s, and the other way round", (one, other) => {
  expect(soundsLike(one, other)).toBe(true);
  expect(soundsLike(other, one)).toBe(true);
});

test.each([
  ["Acorn", "Banjo"],
  ["Dora", "Lantern"],
  ["Tom", "Kim"],
  ["Old", "New"],
  ["7", "8"],
])("%s does not sound like %s", (one, other) => {
  expect(soundsLike(one, other)).toBe(false);
});

const pairs = bottleNames.flatMap((one, at) =>
  bottleNames.slice(at + 1).map((other): [string, string] => [one, other]),
);

test("no two names of the list sound alike", () => {
  expect(pairs.filter(([one, other]) => soundsLike(one, other))).toEqual([]);
});

/** Words said at the sink, and what is in the bottles. */
const spoken = [
  ..."ready in out next again hold left skip stop trouble wait undo note clear full".split(" "),
  ..."developer bleach blix fixer stop wash stabilizer prewash reversal conditioner".split(" "),
  ..."bottle sheet tank water north south light dark wet summary help".split(" "),
  ..."eyes splash burn swallowed shock breathe".split(" "),
];

test("no name of the list sounds like a word of the work", () => {
  const alike = bottleNames.flatMap((name) =>
    spoken.filter((word) => soundsLike(name, word)).map((word) => [name, word]),
  );
  expect(alike).toEqual([]);
});

test("every name has two syllables or more and one word", () => {
  for (const name of bottleNames) {
    expect(name).toMatch(/^[A-Z][a-z]+$/);
    expect(name.match(/[aeiou]+|y$/gi)?.length).toBeGreaterThanOrEqual(2);
  }
});

test("no mark is on both sides, so a shape alone tells a developer", () => {
  const { developer, other } = bottleMarks;
  expect(developer.filter((mark) => other.includes(mark))).toEqual([]);
});

test("the first free name is given; one that was ever used, or sounds like it, is not", () => {
  expect(freeName(["Acorn", "Banjo"], [])).toBe("Acorn");
  expect(freeName(["Acorn", "Banjo"], ["Acorn"])).toBe("Banjo");
  expect(freeName(["Ember", "Banjo"], ["Amber"])).toBe("Banjo");
  expect(freeName(["Acorn"], ["Acorn"])).toBeUndefined();
});

test("the list can be used up to its last name", () => {
  const used: string[] = [];
  for (;;) {
    const name = freeName(bottleNames, used);
    if (name === undefined) break;
    used.push(name);
  }
  expect(used).toHaveLength(bottleNames.length);
});
