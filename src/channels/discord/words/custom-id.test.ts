import fc from "fast-check";
import { expect, test } from "vitest";
import { customId } from "./custom-id.ts";

const bench = "123456789012345678";

test("an id is read as it was made", () => {
  const part = fc
    .string({ unit: "binary", minLength: 1, maxLength: 8 })
    .map((s) => s.toWellFormed());
  const law = fc.property(part, part, fc.option(part, { nil: undefined }), (a, word, asked) => {
    fc.pre(encodeURIComponent(`${a}${word}${asked ?? ""}`).length < 80);
    const id = customId.make({ bench: a, word, asked });
    expect(id.length).toBeLessThanOrEqual(100);
    expect(customId.read(id)).toEqual({ kind: "button", bench: a, word, asked });
  });
  fc.assert(law);
});

test("one sign changed, added or lost is noticed", () => {
  const id = customId.make({ bench, word: "out", asked: "run-12.3.i" });
  const law = fc.property(
    fc.nat(id.length - 1),
    fc.string({ minLength: 1, maxLength: 2 }),
    (at, put) => {
      const changed = id.slice(0, at) + put + id.slice(at + 1);
      fc.pre(changed !== id);
      expect(customId.read(changed).kind).not.toBe("button");
    },
  );
  fc.assert(law, { numRuns: 500 });
  expect(customId.read(id.slice(0, -1)).kind).toBe("damaged");
});

test("an id of a later version is told apart from a damaged one", () => {
  expect(customId.read("w2:x:y:z:nonsense").kind).toBe("damaged");
  expect(customId.read("somebody else's").kind).toBe("foreign");
  expect(customId.read("").kind).toBe("foreign");
});

test("reading never throws", () => {
  const anything = fc.oneof(
    fc.string({ unit: "binary", maxLength: 120 }),
    fc.string({ maxLength: 100 }).map((rest) => `w1:${rest}`),
    fc.string({ maxLength: 100 }).map((rest) => `w1:%E0:${rest}`),
  );
  const law = fc.property(anything, (id) => {
    expect(customId.read(id).kind).not.toBe("button");
  });
  fc.assert(law, { numRuns: 500 });
});

test("what does not fit is a bug and throws", () => {
  expect(() => customId.make({ bench: "x".repeat(90), word: "in" })).toThrow(RangeError);
});
