import { expect, test } from "vitest";
import { nearestNames } from "./nearest-names.ts";

const all = ["Acorn", "Banjo", "Lantern", "Walnut", "Old Walnut", "Kettle"].map((name) => ({
  name,
  value: name,
}));
const found = (typed: string) => nearestNames(all, typed).map(({ name }) => name);

test.each([
  { what: "nothing typed", typed: "", is: all.map(({ name }) => name) },
  { what: "its beginning", typed: "lan", is: ["Lantern"] },
  { what: "another case", typed: "BANJO", is: ["Banjo"] },
  { what: "its beginning before a word inside", typed: "wal", is: ["Walnut", "Old Walnut"] },
  { what: "one letter wrong", typed: "acirn", is: ["Acorn"] },
  { what: "two letters wrong in a long one", typed: "lantarm", is: ["Lantern"] },
  { what: "as it sounds", typed: "akorn", is: ["Acorn"] },
  { what: "as it sounds, while it is typed", typed: "ketel", is: ["Kettle"] },
  { what: "something else", typed: "zebra", is: [] },
])("$what: $typed", ({ typed, is }) => {
  expect(found(typed)).toEqual(is);
});
