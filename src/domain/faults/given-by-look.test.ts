import { expect, test } from "vitest";
import { faultTables } from "../../data/faults.ts";
import { clearParts, edgeNumbers, type FirstLook, places, rebates } from "../record/first-look.ts";
import { instant } from "../units/quantity.ts";
import { givenByLook } from "./given-by-look.ts";

const at = instant(0);
const looks: readonly FirstLook[] = [
  ...edgeNumbers.map((edge) => ({ at, edgeNumbers: edge })),
  ...clearParts.map((clear) => ({ at, clearParts: clear })),
  ...rebates.map((rebate) => ({ at, rebate })),
  ...places.map((place) => ({ at, place })),
  { at, sameOnAll: true },
  { at, sameOnAll: false },
];

test("what a look answers is an option of its question, word for word", () => {
  const told = looks.flatMap((firstLook) => Object.entries(givenByLook({ firstLook })));
  expect(told).toHaveLength(10);
  for (const [question, word] of told) {
    const words = faultTables.questions.get(question)?.options.map((option) => option.word);
    expect(words, question).toContain(word);
  }
});

test("without a look nothing is answered", () => {
  expect(givenByLook({})).toEqual({});
});
