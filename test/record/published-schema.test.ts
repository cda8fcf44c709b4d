import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { expect, test } from "vitest";
import { z } from "zod";
import { sessionJson, sharedJson } from "../../src/commands/session-json.ts";
import { sessionOf } from "../../src/commands/session-of.ts";
import { forSharing } from "../../src/domain/record/for-sharing.ts";
import { sessionSchema, sharedSessionSchema } from "../../src/domain/record/session-schema.ts";
import { arbitrarySession } from "../support/arbitrary-session.ts";

const folder = join(import.meta.dirname, "../../data/schemas");
const published = [
  {
    file: "session-1.schema.json",
    schema: sessionSchema,
    title: "A session of developing film, as its own bench keeps it",
    made: sessionJson,
  },
  {
    file: "shared-session-1.schema.json",
    schema: sharedSessionSchema,
    title: "A session of developing film, as it may be shown to others",
    made: (summary: z.infer<typeof sessionSchema>) => sharedJson(forSharing(summary)),
  },
];

/** A validator that knows nothing of the schema but its file (JSON Schema 2020-12). */
const validator = (file: string) =>
  new Ajv2020({ strict: true, allErrors: true }).compile(
    JSON.parse(readFileSync(join(folder, file), "utf8")),
  );

test.each(published)("$file is what the program checks by", async ({ file, schema, title }) => {
  const made = { $id: `wetside/${file}`, title, ...z.toJSONSchema(schema) };
  await expect(`${JSON.stringify(made, undefined, 2)}\n`).toMatchFileSnapshot(join(folder, file));
});

test.each(published)("every session's JSON is valid by $file", ({ file, made }) => {
  const valid = validator(file);
  const always = fc.property(arbitrarySession, ({ bench, run }) => {
    const json: unknown = JSON.parse(made(sessionOf(bench, run)));
    expect(valid(json), JSON.stringify(valid.errors)).toBe(true);
  });
  fc.assert(always, { numRuns: 300 });
});

test("the shared schema has no place for anything private", () => {
  const valid = validator("shared-session-1.schema.json");
  const [{ bench, run } = never()] = fc.sample(arbitrarySession, { numRuns: 1, seed: 7 });
  const whole = sessionOf(bench, run);
  expect(valid(whole)).toBe(false);
  expect(valid({ ...forSharing(whole), note: "x" })).toBe(false);
  expect(valid(forSharing(whole))).toBe(true);
});

test.each([
  ["a time in words", { plan_to_s: "3:15" }],
  ["a version to come", { version: 2 }],
  ["a state nobody knows", { state: "half done" }],
  ["no stages", { stages: [] }],
])("%s is not valid", (_, change) => {
  const valid = validator("session-1.schema.json");
  const [{ bench, run } = never()] = fc.sample(arbitrarySession, { numRuns: 1, seed: 7 });
  expect(valid({ ...sessionOf(bench, run), ...change })).toBe(false);
});

function never(): never {
  throw new Error("no sample");
}
