import { createWriteStream } from "node:fs";
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { ZipFile } from "yazl";
import { performExport } from "../../src/conversation/perform/export.ts";
import { performRewrite } from "../../src/conversation/perform/rewrite.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { ExportError } from "../../src/export/export-error.ts";
import { filesIn } from "../../src/export/files.ts";
import { openExport, readAll } from "../../src/export/open-export.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import { withFolder } from "../support/child.ts";
import { evening } from "../support/runs.ts";
import { arbitraryStock } from "../support/stocked-bench.ts";

type Parts = Record<string, Buffer>;

/** An honest archive, as bytes and taken apart. */
const honest: { bytes: Buffer; parts: Parts } = { bytes: Buffer.alloc(0), parts: {} };

beforeAll(() =>
  withFolder(async (folder) => {
    const stocked = fc
      .sample(arbitraryStock, { numRuns: 30, seed: 9 })
      .find(({ archived }) => archived.length > 1);
    if (stocked === undefined) throw new Error("no sample");
    const store = createMemoryStore<BenchRecord>();
    await store.commit("home", undefined, stocked.record);
    for (const run of stocked.archived) await store.archive("home", run.id, run);
    await mkdir(join(folder, "pictures"));
    for (const [name, bytes] of stocked.pictures) {
      await writeFile(join(folder, "pictures", name), bytes);
    }
    const bench = { id: "home", record: stocked.record, store, files: filesIn(folder) };
    await performExport(bench, "a.zip", evening, () => undefined);
    const path = join(folder, "exports", "a.zip");
    honest.bytes = await readFile(path);
    const open = await openExport(path);
    const names = ["bench.json", "runs.jsonl", "wetside.json"];
    for (const name of [...names, ...open.pictures.map((one) => `pictures/${one}`)]) {
      honest.parts[name] = await readAll(await open.stream(name));
    }
    open.close();
  }),
);

async function zipped(path: string, parts: readonly (readonly [string, Buffer])[]): Promise<void> {
  const zip = new ZipFile();
  for (const [name, bytes] of parts) zip.addBuffer(bytes, name);
  zip.end();
  await pipeline(Readable.from(zip.outputStream), createWriteStream(path));
}

/** What is said of an archive, and that nothing was changed by it. */
async function refusal(put: (path: string) => Promise<unknown>): Promise<string> {
  return withFolder(async (folder) => {
    await mkdir(join(folder, "exports"));
    await put(join(folder, "exports", "x.zip"));
    const store = createMemoryStore<BenchRecord>();
    const record = newRecord("home", "UTC");
    await store.commit("home", undefined, record);
    const bench = { id: "home", record, store, files: filesIn(folder) };
    const said = await performRewrite(bench, { kind: "restore", file: "x.zip" }).then(
      ({ reply }) => `taken: ${reply.title}`,
      (error: unknown) => {
        if (error instanceof ExportError) return error.message;
        throw error;
      },
    );
    if (!said.startsWith("taken")) {
      expect((await store.load("home")).value).toBe(record);
      expect(await readdir(folder)).toEqual(["exports"]);
      expect(await readdir(join(folder, "exports"))).toEqual(["x.zip"]);
    }
    return said;
  });
}

const changed = (change: Partial<Record<string, Buffer | undefined>>) => (path: string) =>
  zipped(
    path,
    Object.entries({ ...honest.parts, ...change }).flatMap(([name, bytes]) =>
      bytes === undefined ? [] : [[name, bytes] as const],
    ),
  );

/** The manifest with something else in it. */
const manifest = (change: object): Buffer =>
  Buffer.from(JSON.stringify({ ...JSON.parse(String(honest.parts["wetside.json"])), ...change }));

const altered = (from: string, to: string) => (path: string) => {
  expect(from.length).toBe(to.length);
  const text = honest.bytes.toString("latin1");
  expect(text).toContain(from);
  return writeFile(path, Buffer.from(text.replaceAll(from, to), "latin1"));
};

test("an honest archive is taken", async () => {
  expect(await refusal(changed({}))).toContain("taken");
});

describe("a hostile archive is refused with a sentence", () => {
  test.each([
    ["a way out of the folder", "pictures/run-1.png", "../../../../x1.png", "leave its folder"],
    ["a path from the root", "pictures/run-1.png", "/etc/passwd-x1.png", "leave its folder"],
    [
      "a backslash",
      "pictures/run-1.png",
      "..\\..\\..\\run-1.png",
      "leave its folder|no export of mine",
    ],
    ["a file no export has", "pictures/run-1.png", "pictures/run-1.exe", "no export of mine"],
  ])("%s", async (_, from, to, says) => {
    expect(await refusal(altered(from, to))).toMatch(new RegExp(says));
  });

  test("a file that unpacks to far more than a bench holds", async () => {
    const bomb = Buffer.alloc(70_000_000, 32);
    expect(await refusal(changed({ "bench.json": bomb }))).toContain("70 MB");
    expect(await refusal(changed({ "runs.jsonl": bomb }))).toContain("70 MB");
  });

  test("a size that is a lie", async () => {
    // The length of bench.json before packing, where the directory at the end of the zip has it.
    const text = honest.bytes.toString("latin1");
    const name = text.lastIndexOf("bench.json");
    const lied = Buffer.from(honest.bytes);
    lied.writeUInt32LE(100, name - 46 + 24);
    expect(await refusal((path) => writeFile(path, lied))).toContain("damaged");
  });

  test("the same name twice", async () => {
    const twice = (path: string) =>
      zipped(path, [...Object.entries(honest.parts), ["bench.json", Buffer.from("{}")]]);
    expect(await refusal(twice)).toContain("twice");
  });

  test.each([
    ["no bench", { "bench.json": undefined }, "lacks the bench"],
    ["no first page", { "wetside.json": undefined }, "no wetside.json"],
    ["a bench that was altered", { "bench.json": Buffer.from('{"schemaVersion":1}') }, "altered"],
    ["runs that were altered", { "runs.jsonl": Buffer.from("") }, "altered"],
    ["a picture that was altered", { "pictures/run-1.png": Buffer.from("x") }, "altered"],
    ["a picture less", { "pictures/run-1.png": undefined }, "pictures"],
    ["a first page of something else", { "wetside.json": Buffer.from("[1]") }, "no export"],
    ["a first page that is no JSON", { "wetside.json": Buffer.from("{") }, "cannot be read"],
  ])("%s", async (_, change, says) => {
    expect(await refusal(changed(change))).toContain(says);
  });

  test("one from a newer program, and one of another shape", async () => {
    expect(await refusal(changed({ "wetside.json": manifest({ version: 2 }) }))).toContain("newer");
    expect(await refusal(changed({ "wetside.json": manifest({ extra: 1 }) }))).toContain(
      "no export",
    );
  });

  test("contents that are sound by their sums and are no bench all the same", async () => {
    const { createHash } = await import("node:crypto");
    const sum = (text: string): string => createHash("sha256").update(text).digest("hex");
    const { sha256 } = JSON.parse(String(honest.parts["wetside.json"]));
    const bench = '{"schemaVersion":1,"bench":{}}';
    const noBench = {
      "bench.json": Buffer.from(bench),
      "wetside.json": manifest({ sha256: { ...sha256, bench: sum(bench) } }),
    };
    expect(await refusal(changed(noBench))).toContain("is not one");
    const newer = '{"schemaVersion":99}';
    const fromNewer = {
      "bench.json": Buffer.from(newer),
      "wetside.json": manifest({ sha256: { ...sha256, bench: sum(newer) } }),
    };
    expect(await refusal(changed(fromNewer))).toContain("newer");
    for (const runs of [
      '{"id":"run-1"}\n',
      "nonsense\n",
      '{"id":"../x","run":{}}\n',
      '{"id":"run-99"',
    ]) {
      const noRuns = {
        "runs.jsonl": Buffer.from(runs),
        "wetside.json": manifest({ sha256: { ...sha256, runs: sum(runs) } }),
      };
      expect(await refusal(changed(noRuns))).toMatch(/run|runs/);
    }
  });

  test("one cut short anywhere, one with a byte flipped anywhere, and what is no zip at all", async () => {
    const { bytes } = honest;
    for (let share = 0; share < 24; share += 1) {
      const cut = bytes.subarray(0, Math.floor((bytes.length * share) / 24));
      expect(await refusal((path) => writeFile(path, cut))).toMatch(/damaged|cut short/);
    }
    for (let share = 0; share < 40; share += 1) {
      const flipped = Buffer.from(bytes);
      const at = Math.floor((bytes.length * share) / 40) + (share % 7);
      flipped[at] = (flipped[at] ?? 0) ^ 0x55;
      // A flip in a time of day or a comment of the zip does no harm; nothing else passes.
      const said = await refusal((path) => writeFile(path, flipped));
      expect(said).toMatch(/\.$/);
    }
    expect(await refusal((path) => writeFile(path, "hello"))).toContain("damaged");
  });

  test("a name that leads elsewhere is never opened", async () => {
    const files = filesIn("/nowhere");
    for (const name of ["../x.zip", "/etc/x.zip", "a/b.zip", "x", "..zip", ".hidden.zip"]) {
      await expect(files.open(name)).rejects.toBeInstanceOf(ExportError);
    }
  });
});
