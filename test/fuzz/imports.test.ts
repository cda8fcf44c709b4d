import { mkdir, readdir } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { performRewrite } from "../../src/conversation/perform/rewrite.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { readRepeatable } from "../../src/domain/record/read-repeatable.ts";
import { ExportError } from "../../src/export/export-error.ts";
import { filesIn } from "../../src/export/files.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import { withFolder } from "../support/child.ts";
import { archiveOf, type Made } from "../support/hostile-archive.ts";
import { seasonRun } from "../support/season.ts";

/** What is said of it; nothing is changed by one that is refused. */
const said = (made: Made): Promise<string> =>
  withFolder(async (folder) => {
    await mkdir(join(folder, "exports"));
    await archiveOf(join(folder, "exports", "x.zip"), made);
    const store = createMemoryStore<BenchRecord>();
    const record = newRecord("home", "UTC");
    await store.commit("home", undefined, record);
    const bench = { id: "home", record, store, files: filesIn(folder) };
    try {
      await performRewrite(bench, { kind: "restore", file: "x.zip" });
      return "taken";
    } catch (error) {
      if (!(error instanceof ExportError)) throw error;
      expect((await store.load("home")).value).toBe(record);
      expect(await readdir(join(folder, "exports"))).toEqual(["x.zip"]);
      return error.message;
    }
  });

const whole = (change: object = {}): string => {
  const record = newRecord("home", "UTC");
  return JSON.stringify({ ...record, ...change });
};

const nested = (depth: number): string => `${"[".repeat(depth)}${"]".repeat(depth)}`;

describe("an archive with honest sums and hostile contents", () => {
  test("an honest one is taken", async () => {
    expect(await said({ bench: whole(), runs: "" })).toBe("taken");
  });

  test.each([
    ["where any value may stand", `{"v":${nested(200_000)}}`],
    ["where a value is known", `{"schemaVersion":1,"bench":${nested(200_000)}}`],
    [
      "in a question that waits",
      whole({ threads: {} }).replace(
        '"threads":{}',
        `"threads":{"Ines":{"pending":{"ask":{"command":"mix","slot":"total","fields":{"a":${nested(50_000)}}},"at":1}}}`,
      ),
    ],
    [
      "in what undo keeps",
      whole({ undo: [] }).replace(
        '"undo":[]',
        `"undo":[{"label":"x","at":1,"changes":[{"kind":"set","path":["bench"],"value":${nested(50_000)}}]}]`,
      ),
    ],
  ])("nested without end, %s: a sentence, or taken without it", async (_, bench) => {
    expect(await said({ bench, runs: "" })).toMatch(/^taken$|\.$/);
  });

  test("runs nested without end, and runs without end", async () => {
    const run = seasonRun({ on: "2026-01-01T20:00", read: [38, 37.8] }, 1);
    const line = JSON.stringify({ id: run.id, run });
    const deep = line.replace('"run":{', `"run":{"more":${nested(100_000)},`);
    expect(await said({ bench: whole(), runs: `${deep}\n` })).toMatch(/\.$/);
    expect(await said({ bench: whole(), runs: `${line}\n`.repeat(2) })).toMatch(/\.$/);
    expect(await said({ bench: whole(), runs: `${" ".repeat(3_000_000)}\n` })).toMatch(/\.$/);
    expect(await said({ bench: whole(), runs: "\n".repeat(100_000) })).toMatch(/\.$/);
  });

  test("counts that are too large, or none", async () => {
    const count = { runs: 1e15, archived: 1e15, bottles: 0, sheets: 0, rolls: 0, reminders: 0 };
    const first = { counts: { ...count, pictures: 1e15 } };
    // What a first page counts is told and never relied upon.
    expect(await said({ bench: whole(), runs: "", first })).toMatch(/^taken$|\.$/);
    const wrong = { counts: { ...count, pictures: -1 } };
    expect(await said({ bench: whole(), runs: "", first: wrong })).toContain("no export");
    const missing = { missing: Array.from({ length: 40_000 }, (_, n) => `run-${n}`) };
    expect(await said({ bench: whole(), runs: "", first: missing })).toMatch(/^taken$|\.$/);
  });

  test("any value of another kind anywhere on the bench: refused in a sentence, or a bench", async () => {
    const keys = Object.keys(newRecord("home", "UTC").bench);
    const law = fc.asyncProperty(
      fc.constantFrom(...keys),
      fc.jsonValue({ maxDepth: 4 }),
      async (key, value) => {
        const record = newRecord("home", "UTC");
        const bench = JSON.stringify({ ...record, bench: { ...record.bench, [key]: value } });
        expect(await said({ bench, runs: "" })).toMatch(/^taken$|\.$/);
      },
    );
    await fc.assert(law, { numRuns: 60 });
  });
});

test("a block of somebody else's run: any text at all is read or refused, never thrown at", () => {
  const block = fc.oneof(
    fc.json({ maxDepth: 6 }),
    fc.string({ maxLength: 200 }),
    fc.integer({ min: 1, max: 2000 }).map(nested),
    fc
      .jsonValue()
      .map((more) =>
        JSON.stringify({ schema: "wetside-repeatable", version: 1, name: "x", baths: more }),
      ),
    fc.constant(`{"schema":"wetside-repeatable","baths":${nested(3000)}}`),
  );
  const law = fc.property(block, (text) => {
    expect(typeof readRepeatable(text).ok).toBe("boolean");
  });
  fc.assert(law, { numRuns: 500 });
});
