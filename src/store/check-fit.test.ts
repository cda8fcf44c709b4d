import fc from "fast-check";
import { expect, test } from "vitest";
import { z } from "zod";
import { busyBench } from "../../test/support/understand.ts";
import { recordSchema } from "../conversation/record.ts";
import { apply, type Change } from "../domain/changes.ts";
import { misfit } from "./check-fit.ts";

type Path = readonly (string | number)[];

/** Every place in a value, the value itself included. */
function placesIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value !== "object" || value === null) return [path];
  const inner = Array.isArray(value)
    ? value.map((item, at) => [at, item] as const)
    : Object.entries(value).filter(([, item]) => item !== undefined);
  return [path, ...inner.flatMap(([key, item]) => placesIn(item, [...path, key]))];
}

const stored: unknown = JSON.parse(JSON.stringify(busyBench));
const places = placesIn(stored).filter((path) => path.length > 0);
const junk = fc.oneof(
  fc.constantFrom<unknown>(null, true, "", "developer", 0, -1, 1e300, [], {}, "C-41"),
  fc.jsonValue(),
  // Something that stands elsewhere, and may fit here.
  fc.constantFrom(...places).map((path) => at(stored, path)),
);
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.record({ kind: fc.constant("set" as const), path: fc.constantFrom(...places), value: junk }),
  fc.record({
    kind: fc.constant("drop" as const),
    path: fc.constantFrom(...places.filter((path) => typeof path.at(-1) === "string")),
  }),
  fc.record({
    kind: fc.constant("push" as const),
    path: fc.constantFrom(...places.filter((path) => Array.isArray(at(stored, path)))),
    items: fc.array(junk, { minLength: 1, maxLength: 2 }),
  }),
);

function at(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((inner, step) => (inner as Record<string, unknown>)[step], value);
}

test("looking at what changed says the same as looking at all of it", () => {
  expect(recordSchema.safeParse(stored).success).toBe(true);
  let spoiled = 0;
  fc.assert(
    fc.property(change, (one) => {
      const after = apply(stored, [one]);
      const whole = recordSchema.safeParse(after);
      expect(misfit(recordSchema, after, [one]) === undefined).toBe(whole.success);
      if (!whole.success) spoiled += 1;
    }),
    { numRuns: 3000 },
  );
  expect(spoiled).toBeGreaterThan(500);
});

test("the place is that of the whole value", () => {
  const schema = z.object({
    runs: z.record(z.string(), z.object({ stages: z.array(z.number()) })),
  });
  const data = { runs: { north: { stages: [1, "two"] } } };
  const changes: Change[] = [{ kind: "push", path: ["runs", "north", "stages"], items: ["two"] }];
  expect(misfit(schema, data, changes)?.place).toBe("runs.north.stages");
  expect(misfit(schema, data, [{ kind: "set", path: [], value: data }])?.place).toBe(
    "runs.north.stages.1",
  );
});

test("a rule about a whole list or object is held to when one item changes", () => {
  const schema = z.object({
    list: z.array(z.number()).max(2),
    span: z.object({ from: z.number(), to: z.number() }).refine(({ from, to }) => from <= to),
  });
  const push: Change = { kind: "push", path: ["list"], items: [3] };
  expect(misfit(schema, { list: [1, 2, 3], span: { from: 0, to: 1 } }, [push])).toBeDefined();
  const set: Change = { kind: "set", path: ["span", "from"], value: 2 };
  expect(misfit(schema, { list: [], span: { from: 2, to: 1 } }, [set])).toBeDefined();
  expect(misfit(schema, { list: [], span: { from: 2, to: 3 } }, [set])).toBeUndefined();
});

test("a part that is judged as a whole is judged once, however much of it has changed", () => {
  let judged = 0;
  const counted = z.object({
    reply: z.custom<readonly number[]>((value) => {
      judged += 1;
      return Array.isArray(value);
    }),
  });
  const reply = Array.from({ length: 200 }, (_, n) => n);
  const changes = reply.map((value): Change => ({ kind: "set", path: ["reply", value], value }));
  expect(misfit(counted, { reply }, changes)).toBeUndefined();
  expect(judged).toBe(1);
});
