import fc from "fast-check";
import { expect, test } from "vitest";
import { apply, applying, type Change, diff } from "./changes.ts";

const json = fc.jsonValue({ maxDepth: 4 });

/** Two versions of one bench: the second shares what it did not change, as commits do. */
const versions = fc
  .record({
    rolls: fc.array(fc.record({ name: fc.string(), push: fc.nat(3) }), { maxLength: 5 }),
    names: fc.dictionary(fc.string(), json),
    rest: json,
  })
  .chain((bench) =>
    fc
      .record({ roll: fc.nat(5), added: fc.array(json), rest: json, key: fc.string(), value: json })
      .map(({ roll, added, rest, key, value }) => {
        const { [key]: _, ...names } = bench.names;
        const rolls = bench.rolls.map((old, at) => (at === roll ? { ...old, push: 9 } : old));
        return {
          bench,
          next: { rolls: [...rolls, ...added], names: { ...names, [`${key}2`]: value }, rest },
        };
      }),
  );

test("applying the difference gives the next value, and the other way round", () => {
  const law = fc.property(json, json, (one, other) => {
    expect(apply(one, diff(one, other))).toEqual(other);
    expect(apply(other, diff(other, one))).toEqual(one);
  });
  fc.assert(law);
  const shared = fc.property(versions, ({ bench, next }) => {
    expect(apply<unknown>(bench, diff(bench, next))).toEqual(next);
    expect(apply<unknown>(next, diff(next, bench))).toEqual(bench);
  });
  fc.assert(shared);
});

test("changes survive being written as JSON", () => {
  const law = fc.property(json, json, (one, other) => {
    const text = JSON.stringify(diff(one, other));
    const read = JSON.stringify(apply(one, JSON.parse(text) as Change[]));
    expect(JSON.parse(read)).toEqual(JSON.parse(JSON.stringify(other)));
  });
  fc.assert(law);
});

const roll = { name: "A", push: 0 };

test.each<{ what: string; previous: unknown; next: unknown; changes: readonly Change[] }>([
  { what: "nothing", previous: roll, next: roll, changes: [] },
  { what: "equal content", previous: { a: { b: 1 } }, next: { a: { b: 1 } }, changes: [] },
  {
    what: "a field",
    previous: { a: { b: 1, c: 2 } },
    next: { a: { b: 3, c: 2 } },
    changes: [{ kind: "set", path: ["a", "b"], value: 3 }],
  },
  {
    what: "a dropped field",
    previous: { a: 1, b: 2 },
    next: { a: 1 },
    changes: [{ kind: "drop", path: ["b"] }],
  },
  {
    what: "a field that becomes undefined",
    previous: { a: 1, b: 2 },
    next: { a: 1, b: undefined },
    changes: [{ kind: "drop", path: ["b"] }],
  },
  {
    what: "a list that grew",
    previous: { rolls: [roll] },
    next: { rolls: [roll, 2, 3] },
    changes: [{ kind: "push", path: ["rolls"], items: [2, 3] }],
  },
  {
    what: "one item of a list",
    previous: { rolls: [roll, { name: "B", push: 0 }] },
    next: { rolls: [roll, { name: "B", push: 1 }] },
    changes: [{ kind: "set", path: ["rolls", 1, "push"], value: 1 }],
  },
  {
    what: "a list that shrank",
    previous: { rolls: [roll, 2] },
    next: { rolls: [2] },
    changes: [{ kind: "set", path: ["rolls"], value: [2] }],
  },
  {
    what: "everything",
    previous: [1],
    next: { a: 1 },
    changes: [{ kind: "set", path: [], value: { a: 1 } }],
  },
])("$what is written as little as it takes", ({ previous, next, changes }) => {
  expect(diff(previous, next)).toEqual(changes);
});

test("what did not change is shared, and the value given is left alone", () => {
  const bench = Object.freeze({ rolls: Object.freeze([roll]), tanks: Object.freeze({ north: 1 }) });
  const next = apply<{ rolls: readonly unknown[]; tanks: unknown }>(bench, [
    { kind: "push", path: ["rolls"], items: [2] },
  ]);
  expect(next.tanks).toBe(bench.tanks);
  expect(next.rolls[0]).toBe(roll);
  expect(bench.rolls).toHaveLength(1);
});

test("names that mean something to the language are plain names here", () => {
  const odd: unknown = JSON.parse('{"constructor": {"a": 1}, "__proto__": {"polluted": true}}');
  for (const [one, other] of [
    [{}, odd],
    [odd, {}],
    [odd, JSON.parse('{"__proto__": {"polluted": false}, "toString": 1}')],
  ]) {
    const result = apply(one, diff(one, other));
    expect(JSON.stringify(result)).toBe(JSON.stringify(other));
    expect(Object.getPrototypeOf(result)).toBe(Object.prototype);
  }
  expect("polluted" in {}).toBe(false);
});

test.each<Change>([
  { kind: "set", path: ["__proto__", "polluted"], value: true },
  { kind: "set", path: ["constructor", "prototype", "polluted"], value: true },
  { kind: "set", path: ["missing", "a"], value: 1 },
  { kind: "set", path: ["list", "length"], value: 0 },
  { kind: "set", path: ["list", 1], value: 0 },
  { kind: "push", path: ["a"], items: [1] },
  { kind: "push", path: ["missing"], items: [1] },
  { kind: "drop", path: [] },
  { kind: "drop", path: ["list", 0] },
])("$kind at $path does not fit and is a fault", (change) => {
  expect(() => apply({ a: 1, list: [1] }, [change])).toThrow("does not fit");
  expect("polluted" in {}).toBe(false);
});

test("changes that come a few at a time copy what they alter once, and never the value given", () => {
  const given = { bottles: { acorn: 1 }, runs: [1], rest: {} };
  const before = structuredClone(given);
  const coming = applying(given);
  const set = (name: string): Change => ({ kind: "set", path: ["bottles", name], value: 2 });
  const { bottles, runs } = coming.take([
    set("banjo"),
    { kind: "push", path: ["runs"], items: [2] },
  ]);
  const after = coming.take([
    set("camel"),
    { kind: "set", path: ["runs", 0], value: 9 },
    { kind: "push", path: ["runs"], items: [3] },
    { kind: "drop", path: ["bottles", "acorn"] },
  ]);
  expect(after).toEqual({ bottles: { banjo: 2, camel: 2 }, runs: [9, 2, 3], rest: {} });
  // Ten thousand bottles, one change each, are not copied ten thousand times.
  expect(after.bottles).toBe(bottles);
  expect(after.runs).toBe(runs);
  expect(after.rest).toBe(given.rest);
  expect(given).toEqual(before);
});
