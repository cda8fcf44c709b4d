import fc from "fast-check";
import { expect, test } from "vitest";
import { fileNameOf, idOf } from "./names.ts";

test.each([
  { id: "home", name: "home" },
  { id: "123456789012345678", name: "123456789012345678" },
  { id: "run_2026-11-28", name: "run_2026-11-28" },
  { id: "Home", name: "~48ome" },
  { id: "../etc", name: "~2e~2e~2fetc" },
  { id: "a b", name: "a~20b" },
  { id: "é", name: "~c3~a9" },
  { id: "~7e", name: "~7e7e" },
  { id: "nul", name: "~6eul" },
])("$id is kept as $name", ({ id, name }) => {
  expect(fileNameOf(id)).toBe(name);
  expect(idOf(name)).toBe(id);
});

test.each(["", "x".repeat(121), "\ud800", "é".repeat(30)])("%j is refused", (id) => {
  expect(() => fileNameOf(id)).toThrow("That name cannot be kept");
});

test.each([".", "..", "Home", "a b", "~zz", "~ff", "nul", "lost+found"])(
  "a file %j is not ours",
  (name) => {
    expect(idOf(name)).toBe(undefined);
  },
);

test("every id has its own name, safe on any disk, that leads back to it", () => {
  const law = fc.property(fc.string({ unit: "grapheme", minLength: 1, maxLength: 8 }), (id) => {
    fc.pre(new TextEncoder().encode(id).length < 40);
    const name = fileNameOf(id);
    expect(name).toMatch(/^[a-z0-9_~-]+$/);
    expect(idOf(name)).toBe(id);
  });
  fc.assert(law);
});
