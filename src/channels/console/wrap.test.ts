import fc from "fast-check";
import { expect, test } from "vitest";
import { wrap } from "./wrap.ts";

test.each([
  { text: "short", columns: 10, is: "short" },
  { text: "one two three", columns: 8, is: "one two\nthree" },
  { text: "  one two three", columns: 9, is: "  one two\n  three" },
  { text: ">> North: agitate now", columns: 14, is: ">> North:\n   agitate now" },
  { text: "  ! open the window", columns: 12, is: "  ! open the\n    window" },
  { text: "unbreakable", columns: 4, is: "unbreakable" },
  { text: "a b\n\nc d", columns: 2, is: "a\nb\n\nc\nd" },
])("$text on $columns columns", ({ text, columns, is }) => {
  expect(wrap(text, columns)).toBe(is);
});

test("no word is lost, and no line is longer than it must be", () => {
  const words = fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1 });
  const law = fc.property(words, fc.integer({ min: 12, max: 90 }), (said, columns) => {
    const wrapped = wrap(said.join(" "), columns);
    expect(wrapped.split(/\s+/)).toEqual(said);
    for (const line of wrapped.split("\n")) expect(line.length).toBeLessThanOrEqual(columns);
  });
  fc.assert(law);
});
