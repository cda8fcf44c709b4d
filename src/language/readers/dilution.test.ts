import fc from "fast-check";
import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { spell } from "../../../test/support/spell.ts";
import { readDilution } from "./dilution.ts";

const plus = (waterParts: number) => ({ waterParts, notation: "plus" });
const ratio = (waterParts: number) => ({ waterParts, notation: "ratio" });

test.each([
  ["1+9", plus(9)],
  ["1 + 9", plus(9)],
  ["1 plus 9", plus(9)],
  ["one plus nine", plus(9)],
  ["2+9", plus(4.5)],
  ["1+0", plus(0)],
  ["1:9", ratio(9)],
  ["1 : 9", ratio(9)],
  ["one to nine", ratio(9)],
  ["1 to 1", ratio(1)],
  ["one part to nine", plus(9)],
  ["one part to nine parts of water", plus(9)],
  ["1 part and 9 parts water", plus(9)],
  ["stock", plus(0)],
  ["undiluted", plus(0)],
  ["full strength", plus(0)],
])("%j is %j", (phrase, value) => {
  expect(readWhole(readDilution, phrase)).toEqual(value);
});

test.each(["0+9", "0 to 9", `1+${"9".repeat(90)}`.replace("1+", "0+")])(
  "%j is refused",
  (phrase) => {
    expect(readWhole(readDilution, phrase)).toHaveProperty("unreadable");
  },
);

test.each(["9", "one and nine", "1+1+100", "to nine", "+"])("%j is no dilution", (phrase) => {
  expect(readWhole(readDilution, phrase)).toBe("nothing");
});

test("every way of saying 1+N gives N", () => {
  fc.assert(
    fc.property(fc.nat(999), (parts) => {
      expect(readWhole(readDilution, `1+${parts}`)).toEqual(plus(parts));
      expect(readWhole(readDilution, `one plus ${spell(parts)}`)).toEqual(plus(parts));
      expect(readWhole(readDilution, `one to ${spell(parts)}`)).toEqual(ratio(parts));
    }),
  );
});
