import { expect, test } from "vitest";
import { dictionaryText, soundsOf } from "./dictionary.ts";
import { pronounce } from "./pronounce.ts";

const cmu = "blue B L UW\nread R EH D\nread(2) R IY D\nwash W AA SH\n";

test("words come from the dictionary with all their ways, others are guessed, signs left out", () => {
  const sounds = soundsOf(cmu, new Set(["read", "wash", "blix", "zorro", "42"]));
  expect(sounds.get("read")).toEqual(["R EH D", "R IY D"]);
  expect(sounds.get("blix")).toEqual(["B L IH K S"]);
  expect(sounds.get("zorro")).toBe(sounds.get("zorro"));
  expect(sounds.has("blue")).toBe(false);
  expect(sounds.has("42")).toBe(false);
  expect(dictionaryText(sounds)).toContain("read(2) R IY D\n");
});

// The guesses are checked against entries of the CMU Pronouncing Dictionary, from memory.
test.each([
  ["blinker", "B L IH NG K ER", "B L IH N K ER"],
  ["tank", "T AE NG K", "T AE N K"],
  ["smoke", "S M OW K", "S M OW K"],
  ["shelter", "SH EH L T ER", "SH EH L T ER"],
  ["pepper", "P EH P ER", "P EH P ER"],
  ["quick", "K W IH K", "K W IH K"],
])("%s is guessed as near to %s as letters allow", (word, _, guess) => {
  expect(pronounce(word)).toBe(guess);
});

test.each(["C-41b2", "日本", ""])("%j is not guessed", (word) => {
  expect(pronounce(word)).toBeUndefined();
});
