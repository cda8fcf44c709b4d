import fc from "fast-check";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { recordSchema } from "../../src/conversation/record.ts";
import { asked } from "../support/asked-of-records.ts";
import { eveningRecords } from "../support/evening-records.ts";
import {
  holderOf,
  hostileFor,
  hostileKey,
  type Json,
  leavesOf,
} from "../support/hostile-values.ts";
import { speakTo } from "../support/speak-to.ts";

const commands = await loadCommands();

type Kind = { readonly shape: string; readonly places: readonly Place[] };
type Place = ReturnType<typeof placesOf>[number];

/** Where a leaf stands in the records of the evening: of each kind of place a few. */
function placesOf({ at, record }: Awaited<ReturnType<typeof eveningRecords>>[number]) {
  const stored = JSON.parse(JSON.stringify(record)) as Json;
  return [...leavesOf(stored)].flatMap(([shape, leaves]) =>
    leaves.slice(-2).map((leaf) => ({ shape, at, stored, leaf })),
  );
}

const kinds: readonly Kind[] = [
  ...Map.groupBy((await eveningRecords(commands, 24)).flatMap(placesOf), ({ shape }) => shape),
].map(([shape, places]) => ({ shape, places }));

const ofBench = (shape: string): boolean => shape.startsWith(".bench.");

/** A value somewhere in a record replaced by a hostile one, or put under a hostile name. */
const spoilt = fc
  .oneof(
    { weight: 5, arbitrary: fc.constantFrom(...kinds.filter(({ shape }) => ofBench(shape))) },
    { weight: 1, arbitrary: fc.constantFrom(...kinds.filter(({ shape }) => !ofBench(shape))) },
  )
  .chain(({ places }) => fc.constantFrom(...places))
  .chain(({ shape, at, stored, leaf: { holder, key } }) => {
    const inside = holderOf(stored, { holder, key });
    const value = Object.entries(inside).find(([name]) => name === String(key))?.[1];
    const change = fc.oneof(
      { weight: 12, arbitrary: hostileFor(value).map((hostile) => ({ key, value: hostile })) },
      { weight: 1, arbitrary: hostileKey.map((name) => ({ key: name, value: value ?? null })) },
    );
    return change.map((one) => {
      const record = structuredClone(stored);
      const into = holderOf(record, { holder, key });
      const { value: put, key: where } = one;
      const flags = { writable: true, enumerable: true, configurable: true };
      // Defined, never assigned: "__proto__" is a key like any other in JSON.
      if (!Array.isArray(into) || typeof where === "number") {
        Object.defineProperty(into, where, { ...flags, value: put });
      }
      return { what: `${shape}: ${JSON.stringify(one).slice(0, 80)}`, at, record };
    });
  });

test("a stored record with a hostile value is refused, or is a bench one can talk to", () => {
  expect(kinds.length).toBeGreaterThan(300);
  let refused = 0;
  let taken = 0;
  const law = fc.property(spoilt, fc.nat(asked.length), ({ what, at, record }, from) => {
    const read = recordSchema.safeParse(record);
    if (!read.success) {
      refused += 1;
      expect(read.error.issues.length, what).toBeGreaterThan(0);
      return;
    }
    taken += 1;
    const sentences = [...asked.slice(from), ...asked.slice(0, from)].slice(0, 14);
    for (const { title, say, lines, cautions } of speakTo(read.data, at, sentences, commands)) {
      expect(say.split(/\s+/).length, `${what}: ${say}`).toBeLessThanOrEqual(12);
      expect(say.length, what).toBeLessThan(800);
      expect([title, say, ...lines, ...cautions].join("\n"), what).not.toMatch(
        /undefined|NaN|Infinity|native code|\[object/,
      );
    }
  });
  // A record is far too long to be shown, and to look for a smaller one takes long as well.
  fc.assert(law, { numRuns: 900, seed: 1826, endOnFailure: true, reporter: briefly });
  expect(refused).toBeGreaterThan(150);
  expect(taken).toBeGreaterThan(450);
}, 120_000);

type Spoilt = typeof spoilt extends fc.Arbitrary<infer T> ? T : never;

/** What was put where, and what came of it. */
function briefly(details: fc.RunDetails<[Spoilt, number]>): void {
  if (!details.failed) return;
  const { errorInstance, counterexample } = details;
  throw new Error(counterexample?.[0].what ?? "no record was made", { cause: errorInstance });
}
