import { expect, test } from "vitest";
import { whyIdle } from "./idle.ts";

test.each([
  { company: 0, word: 0, now: 59_999, why: undefined },
  { company: 0, word: 0, now: 60_000, why: "nobody" },
  { company: 599_000, word: 0, now: 599_999, why: undefined },
  { company: 599_000, word: 0, now: 600_000, why: "quiet" },
  { company: 700_000, word: 690_000, now: 700_001, why: undefined },
])("company at $company, a word at $word: at $now $why", ({ company, word, now, why }) =>
  expect(whyIdle({ company, word }, now)).toBe(why),
);
