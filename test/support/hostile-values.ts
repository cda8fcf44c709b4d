import fc from "fast-check";

/** A value of JSON that can be altered in place. */
export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
export type Holder = Json[] | { [key: string]: Json };

/** A value that holds no others, by the way to it. */
export type Leaf = { readonly holder: readonly (string | number)[]; readonly key: string | number };

/** Names that every object of the language has by itself. */
const inherited = ["toString", "constructor", "__proto__", "hasOwnProperty"];
const escapes = "\u001b[2J\u001b]0;owned\u0007Acorn\u009b31m\r\n";
const strings = [
  "",
  " ",
  ...inherited,
  escapes,
  "x".repeat(5000),
  "wash ".repeat(400),
  "9999-12-31",
  "developer",
  "\u202e\u2066\ud800",
];
const days = ["9999-12-31", "0000-01-01", "1500-02-28", "2026-02-30", "3000-01-01", "1826-01-01"];
const numbers = [
  0,
  -0,
  -1,
  1,
  0.1,
  1e-300,
  1e12,
  -1e12,
  8.64e15,
  -8.64e15,
  253_402_300_799_999,
  1e308,
  2 ** 53,
  7,
];

const isDay = (value: string): boolean => /^\d{4}-\d\d-\d\d$/.test(value);

/** What somebody who means ill puts in the place of a value, of the same type. */
export function hostileFor(value: Json | undefined): fc.Arbitrary<Json> {
  switch (typeof value) {
    case "string":
      return isDay(value)
        ? fc.constantFrom(...days, ...days, ...strings)
        : fc.constantFrom(...strings);
    case "number":
      return fc.oneof(
        { weight: 3, arbitrary: fc.constantFrom(...numbers) },
        // Of the size of the real one.
        { weight: 1, arbitrary: fc.constantFrom(-value, value + 0.1, value * 1000, value / 1000) },
      );
    case "boolean":
      return fc.constant(!value);
    default:
      return fc.constant(null);
  }
}

/** Hostile keys for tables whose keys are names or ids. */
export const hostileKey = fc.constantFrom("", ...inherited, escapes, "y".repeat(500));

/** Every leaf of a value, those of one kind of place under one shape. */
export function leavesOf(value: Json): ReadonlyMap<string, readonly Leaf[]> {
  const found = new Map<string, Leaf[]>();
  const walk = (inner: Json, way: readonly (string | number)[], shape: string): void => {
    if (typeof inner !== "object" || inner === null) return;
    const entries: readonly (readonly [string | number, Json])[] = Array.isArray(inner)
      ? inner.map((item, at) => [at, item] as const)
      : Object.entries(inner);
    for (const [key, item] of entries) {
      // Entries of lists and of tables are of one kind.
      const kind = typeof key === "number" || /[\d ]/.test(key) ? "*" : key;
      const there = `${shape}.${kind}`;
      if (typeof item === "object" && item !== null) walk(item, [...way, key], there);
      else found.set(there, [...(found.get(there) ?? []), { holder: way, key }]);
    }
  };
  walk(value, [], "");
  return found;
}

export const holderOf = (value: Json, { holder }: Leaf): Holder =>
  holder.reduce<Json>(
    (inner, step) => (inner as { [key: string]: Json })[step] ?? null,
    value,
  ) as Holder;
