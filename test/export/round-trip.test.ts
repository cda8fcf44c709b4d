import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { expect, test } from "vitest";
import { z } from "zod";
import { performExport } from "../../src/conversation/perform/export.ts";
import { performRewrite } from "../../src/conversation/perform/rewrite.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { runSchema } from "../../src/domain/session/run.ts";
import { manifestSchema } from "../../src/export/contents.ts";
import { filesIn } from "../../src/export/files.ts";
import { openExport, readAll } from "../../src/export/open-export.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import type { Store } from "../../src/store/store.ts";
import { withFolder } from "../support/child.ts";
import { evening } from "../support/runs.ts";
import { seasonRun } from "../support/season.ts";
import { arbitraryStock, type Stocked } from "../support/stocked-bench.ts";

const NAME = "home-2026-11-28-1930.zip";

async function stock(
  folder: string,
  store: Store<BenchRecord>,
  { record, archived, pictures }: Stocked,
) {
  await store.load("home");
  await store.commit("home", undefined, record);
  for (const run of archived) await store.archive("home", run.id, run);
  await mkdir(join(folder, "pictures"), { recursive: true });
  for (const [name, bytes] of pictures) await writeFile(join(folder, "pictures", name), bytes);
  return { id: "home", record, store, files: filesIn(folder) };
}

/** Everything a bench holds, as it can be read back. */
async function allOf(folder: string, store: Store<BenchRecord>): Promise<Stocked> {
  const { value } = await store.load("home");
  if (value === undefined) throw new Error("there is no bench");
  const archived = [];
  for (const { id } of value.bench.pastRuns) {
    archived.push((await store.recall("home", id)) as Stocked["archived"][number]);
  }
  const names = await readdir(join(folder, "pictures"));
  const pictures = new Map<string, Uint8Array>();
  for (const name of names.sort()) {
    pictures.set(name, new Uint8Array(await readFile(join(folder, "pictures", name))));
  }
  return { record: value, archived, pictures };
}

const sorted = ({ pictures, ...rest }: Stocked): Stocked => ({
  ...rest,
  pictures: new Map([...pictures].sort(([a], [b]) => (a < b ? -1 : 1))),
});

const quiet = (): void => undefined;

test("what is exported and taken on another machine is the same bench", async () => {
  const same = fc.asyncProperty(arbitraryStock, (stocked) =>
    withFolder(async (here) =>
      withFolder(async (there) => {
        const bench = await stock(here, createMemoryStore<BenchRecord>(), stocked);
        await performExport(bench, NAME, evening, quiet);
        await mkdir(join(there, "exports"));
        await writeFile(join(there, "exports", NAME), await readFile(join(here, "exports", NAME)));
        const store = createMemoryStore<BenchRecord>();
        const fresh = newRecord("home", "UTC");
        await store.commit("home", undefined, fresh);
        const files = filesIn(there);
        await performRewrite(
          { id: "home", record: fresh, store, files },
          { kind: "restore", file: NAME },
        );
        expect(await allOf(there, store)).toEqual(sorted(stocked));
      }),
    ),
  );
  await fc.assert(same, { numRuns: 40 });
});

test("the same through files on disk, replacing a bench that is there", () =>
  withFolder((here) =>
    withFolder(async (there) => {
      const [first, second] = fc.sample(arbitraryStock, { numRuns: 2, seed: 3 });
      if (first === undefined || second === undefined) throw new Error("no sample");
      const options = { schema: recordSchema as z.ZodType<BenchRecord> };
      const from = await openFileStore<BenchRecord>({ directory: here, ...options });
      await performExport(await stock(here, from, first), NAME, evening, quiet);
      await from.close();
      let to = await openFileStore<BenchRecord>({ directory: there, ...options });
      const target = await stock(there, to, { ...second, pictures: new Map() });
      await mkdir(join(there, "exports"));
      await writeFile(join(there, "exports", NAME), await readFile(join(here, "exports", NAME)));
      await performRewrite(target, { kind: "restore", file: NAME });
      await to.close();
      to = await openFileStore<BenchRecord>({ directory: there, ...options });
      expect(await allOf(there, to)).toEqual(sorted(first));
      await to.close();
    }),
  ));

test("every part of an archive is valid by its published schema, by an independent validator", async () => {
  const path = join(import.meta.dirname, "../../data/schemas/export-1.schema.json");
  const parts = z.strictObject({
    "wetside.json": manifestSchema,
    "bench.json": recordSchema,
    "runs.jsonl line": z.strictObject({ id: z.string(), run: runSchema }),
  });
  const made = {
    $id: "wetside/export-1.schema.json",
    title: "A bench in one archive: wetside.json, bench.json, and each line of runs.jsonl",
    ...z.toJSONSchema(parts, { io: "input", unrepresentable: "any", reused: "ref" }),
  };
  await expect(`${JSON.stringify(made, undefined, 2)}\n`).toMatchFileSnapshot(path);
  const valid = new Ajv2020({ strict: false, validateFormats: false }).compile(
    JSON.parse(await readFile(path, "utf8")),
  );
  for (const stocked of fc.sample(arbitraryStock, { numRuns: 10, seed: 5 })) {
    await withFolder(async (folder) => {
      const bench = await stock(folder, createMemoryStore<BenchRecord>(), stocked);
      await performExport(bench, NAME, evening, quiet);
      const open = await openExport(join(folder, "exports", NAME));
      const text = async (name: string) => (await readAll(await open.stream(name))).toString();
      const runs = (await text("runs.jsonl")).split("\n").filter((line) => line !== "");
      const files = {
        "wetside.json": JSON.parse(await text("wetside.json")),
        "bench.json": JSON.parse(await text("bench.json")),
      };
      open.close();
      expect(runs).toHaveLength(stocked.archived.length);
      for (const line of runs) {
        const whole = { ...files, "runs.jsonl line": JSON.parse(line) };
        expect(valid(whole), JSON.stringify(valid.errors)).toBe(true);
      }
    });
  }
});

test("a run that cannot be read is left out and said, and progress is told on the way", () =>
  withFolder(async (folder) => {
    const runs = Array.from({ length: 1200 }, (_, n) =>
      seasonRun({ on: "2026-03-03T20:00" }, n + 1),
    );
    const fresh = newRecord("home", "UTC");
    const pastRuns = runs.map(({ id, title, tank, plannedAt }) => ({ id, title, tank, plannedAt }));
    const stocked = {
      record: { ...fresh, bench: { ...fresh.bench, pastRuns } },
      archived: runs.filter(({ id }) => id !== "run-7"),
      pictures: new Map(),
    };
    const bench = await stock(folder, createMemoryStore<BenchRecord>(), stocked);
    const told: Reply[] = [];
    const { reply } = await performExport(bench, NAME, evening, (one) => told.push(one));
    expect(reply.facts.missing).toEqual(["run-7"]);
    expect(reply.cautions.join()).toContain("run-7");
    expect(told.map(({ facts }) => facts.of)).toEqual([1200, 1200]);
    const next = newRecord("home", "UTC");
    const store = createMemoryStore<BenchRecord>();
    await store.commit("home", undefined, next);
    const { reply: back } = await performRewrite(
      { id: "home", record: next, store, files: filesIn(folder) },
      { kind: "restore", file: NAME },
    );
    expect(back.facts.runs).toBe(1200);
    expect(await store.recall("home", "run-8")).toBeDefined();
  }));
