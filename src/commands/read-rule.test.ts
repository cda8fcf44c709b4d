import { expect, test } from "vitest";
import { quietBench } from "../../test/support/reading.ts";
import { toWords } from "../language/words.ts";
import { readPush, readReuse, readRowMeaning } from "./read-rule.ts";

const reuse = (said: string) => readReuse(toWords(said), quietBench);
const push = (said: string) => readPush(toWords(said), quietBench);
const ok = (value: unknown) => ({ ok: true, value });
const rows = (...pairs: readonly (readonly [number, number])[]) =>
  pairs.map(([at, time]) => ({ at, time }));

test.each([
  ["4 percent per roll", { kind: "percent", percent: 4, compounded: false }],
  ["add 4% for each film", { kind: "percent", percent: 4, compounded: false }],
  ["3.5 % per roll compounded", { kind: "percent", percent: 3.5, compounded: true }],
  ["5 seconds per roll", { kind: "seconds", seconds: 5, per: "unit" }],
  ["15 seconds per tank", { kind: "seconds", seconds: 15, per: "batch" }],
  ["20 seconds every batch", { kind: "seconds", seconds: 20, per: "batch" }],
  ["20 ml of replenisher per roll", { kind: "replenish", ml: 20 }],
  ["table 1 3:15, 2 3:20, 3 3:30", { kind: "table", rows: rows([1, 195], [2, 200], [3, 210]) }],
  [
    "1 is 3:15, 2 is 3:20 and 3 is 3:30",
    { kind: "table", rows: rows([1, 195], [2, 200], [3, 210]) },
  ],
])("%s", (said, value) => {
  expect(reuse(said)).toEqual(ok(value));
});

test.each(["it gets longer", "5 seconds", "table", "per roll", "table 1, 2, 3"])(
  "%s is no re-use rule: it says how to put one",
  (said) => {
    const read = reuse(said);
    expect(read.ok ? "" : read.error).toContain("4 percent per roll");
  },
);

test.each([
  ["30 seconds per stop", { kind: "seconds", seconds: 30 }],
  ["half a minute for each stop", { kind: "seconds", seconds: 30 }],
  ["times 1.3 per stop", { kind: "factor", factor: 1.3 }],
  ["30 % per stop", { kind: "factor", factor: 1.3 }],
  ["table 1 3:45, 2 4:15", { kind: "table", rows: rows([1, 225], [2, 255]) }],
  [
    "push 1 3:45, push 2 4:15, pull 1 2:45",
    { kind: "table", rows: rows([1, 225], [2, 255], [-1, 165]) },
  ],
])("%s", (said, value) => {
  expect(push(said)).toEqual(ok(value));
});

test.each(["a bit longer", "30 seconds", "double"])("%s is no push rule", (said) => {
  const read = push(said);
  expect(read.ok ? "" : read.error).toContain("30 seconds per stop");
});

test.each([
  ["done so far", "done"],
  ["two are done", "done"],
  ["so far", "done"],
  ["this one", "this"],
  ["this one is the second", "this"],
  ["the second roll", "this"],
])("%s: %s", (said, value) => {
  expect(readRowMeaning(said)).toEqual(ok(value));
});

test.each(["both", "yes", "I do not know", "the second is done so far"])(
  "%s leaves it open, and it is asked again",
  (said) => {
    expect(readRowMeaning(said).ok).toBe(false);
  },
);
