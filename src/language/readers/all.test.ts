import fc from "fast-check";
import { expect, test } from "vitest";
import { quietBench } from "../../../test/support/reading.ts";
import { toWords } from "../words.ts";
import { type ReaderName, readers } from "./all.ts";

const everyReader = Object.entries(readers) as [ReaderName, (typeof readers)[ReaderName]][];

/** Words that mean something to some reader, in no sensible order. */
const soup = fc
  .array(
    fc.constantFrom(
      ..."a an and half of to x 1 2 1/2 -5 1e309 nan 3:15 12/11 1+9 1:9 120 135 36 4x5 hundred point".split(
        " ",
      ),
      ..."minus two thirty couple dozen ml quart us oz min s hour c f degrees % roll nov 3rd last".split(
        " ",
      ),
      ..."tuesday ago week past pm constructor __proto__ toString 2026-11-28 31 february".split(
        " ",
      ),
    ),
    { maxLength: 30 },
  )
  .map((words) => words.join(" "));
const anything = fc.oneof(soup, fc.string({ unit: "binary", maxLength: 120 }));

/** No infinity and no NaN anywhere inside. */
function isClean(value: unknown): boolean {
  if (typeof value === "number") return Number.isFinite(value);
  return typeof value !== "object" || value === null || Object.values(value).every(isClean);
}

const longestFirst = everyReader.filter(([name]) => name !== "task");

test.each(longestFirst)("{%s} takes anything: no throw, no infinity, longest first", (_, read) => {
  fc.assert(
    fc.property(anything, (sentence) => {
      const { words } = toWords(sentence);
      for (let from = 0; from <= words.length; from += 1) {
        let last = words.length;
        for (const { value, next } of read(words, from, quietBench)) {
          if (next <= from || next > last || !isClean(value)) {
            expect.fail(`${JSON.stringify(value)} from ${from} to ${next} in ${words.join(" ")}`);
          }
          last = next;
        }
      }
    }),
    { numRuns: 200 },
  );
});

test.each([
  "a",
  "and",
  "one",
  "minus",
  "hundred",
  "1",
  "two and a half",
  "3 min",
  "1 quart",
  "120 and",
])("400 times %j is read everywhere and comes to an end", (word) => {
  const { words } = toWords(`${word} `.repeat(400));
  for (const [name, read] of everyReader) {
    if (name === "text") continue;
    for (let from = 0; from < words.length; from += 1) read(words, from, quietBench);
  }
});
