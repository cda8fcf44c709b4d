import { cp, mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { recordSchema as directorySchema } from "../../src/channels/discord/directory/record.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { runSchema } from "../../src/domain/session/run.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { nodeFileSystem } from "../../src/platform/file-system.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { type Migration, migrate } from "../../src/store/migrations/migrate.ts";
import { recover } from "../../src/store/recover.ts";
import { sealSnapshot } from "../../src/store/seal.ts";
import type { Store } from "../../src/store/store.ts";
import { withFolder } from "../support/child.ts";
import { runProgram } from "../support/program.ts";

/**
 * Records as each version of the program stored them, frozen by `test/support/freeze-records.ts`:
 * all of them must be read for ever. What is invented in them is the evening of the tests.
 */
const FIXTURES = join(import.meta.dirname, "fixtures");
/** The version this program writes. */
const CURRENT = migrate({ schemaVersion: 1 }).to;
const AFTER = "2026-12-01T09:00:00Z";

/** Lends a copy of a frozen data folder. */
const withFrozen = (version: number, use: (data: string) => Promise<void>): Promise<void> =>
  withFolder(async (folder) => {
    const data = join(folder, "data");
    await cp(join(FIXTURES, `version-${version}`), data, { recursive: true });
    await use(data);
  });

/** All files of a folder with their content. */
async function content(folder: string): Promise<ReadonlyMap<string, string>> {
  const all = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = all.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name));
  return new Map(
    await Promise.all(
      files.map(async (file) => [file, await readFile(file, "utf8")] as [string, string]),
    ),
  );
}

const openBenches = (directory: string) =>
  openFileStore<BenchRecord>({ directory, schema: recordSchema });

/** What the evening left behind, as far as a darkroom cares. */
async function facts(directory: string) {
  const store = await openBenches(directory);
  try {
    return await factsOf(store);
  } finally {
    await store.close();
  }
}

async function factsOf(store: Store<BenchRecord>) {
  const { value, notices } = await store.load("home");
  if (value === undefined) throw new Error("no bench");
  const { bench } = value;
  const archived = await Promise.all(
    bench.pastRuns.map(async ({ id }) => runSchema.parse(await store.recall("home", id)).tank),
  );
  return {
    notices,
    value,
    facts: {
      zone: bench.zone,
      country: bench.country,
      bottles: Object.values(bench.bottles).map(({ name, volume, used }) => [name, volume, used]),
      rolls: Object.values(bench.rolls).map(({ name }) => name),
      runs: Object.values(bench.runs).map(({ tank, endedAt }) => [tank, endedAt !== undefined]),
      archived,
      reminders: Object.values(bench.reminders).map(({ text }) => text),
      thermometers: Object.keys(bench.thermometers),
    },
  };
}

const every = Array.from({ length: CURRENT }, (_, index) => ({ version: index + 1 }));

describe.each(every)("records of version $version", ({ version }) => {
  test("are read as they were meant, with nothing to say about the files", () =>
    withFrozen(version, async (data) => {
      const read = await facts(data);
      expect(read.notices).toEqual([]);
      await expect(JSON.stringify(read.facts, undefined, 2)).toMatchFileSnapshot(
        join(FIXTURES, `version-${version}.facts.json`),
      );
    }));

  test("can be gone on with: a session on them keeps what it changes", () =>
    withFrozen(version, async (data) => {
      const options = ["--data", data, "--simulate", AFTER, "--json"];
      const first = await runProgram(options, ["note read by a later version", "bottles"]);
      expect(first).toMatchObject({ code: 0, complaint: "" });
      expect(first.output).not.toContain("damaged");
      const again = await runProgram(options, ["undo"]);
      expect(again.output).toContain("read by a later version");
    }));

  test("of Discord's places are read", () =>
    withFrozen(version, async (data) => {
      const store = await openFileStore({
        directory: join(data, "discord"),
        schema: directorySchema,
        migrate: (record) => migrate(record, []),
      });
      const ids = await store.list();
      expect(ids).toHaveLength(2);
      for (const id of ids) expect(await store.load(id)).toMatchObject({ notices: [] });
      await store.close();
    }));
});

test("records of the version this program writes are not touched by being read", () =>
  withFrozen(CURRENT, async (data) => {
    const before = await content(data);
    await facts(data);
    expect(await content(data)).toEqual(before);
  }));

/** Makes the record of a bench one of a version that is not there yet. */
async function fromTheFuture(data: string): Promise<void> {
  const path = join(data, "benches/home");
  const { bench } = await recover({ files: nodeFileSystem, path, shown: "benches/home" });
  const record = { ...(bench?.record as object), schemaVersion: CURRENT + 1, spools: ["new"] };
  for (const name of await readdir(path)) {
    if (/^(snapshot|journal)-/.test(name)) await rm(join(path, name));
  }
  await writeFile(join(path, "snapshot-9.json"), sealSnapshot({ sequence: 900, record }));
  await writeFile(join(path, "journal-9.jsonl"), "");
}

test.each(["chat", "start"] as const)(
  "a record of a newer version: npm run %s says so in a sentence, exit code 1, and touches nothing",
  (script) =>
    withFrozen(CURRENT, async (data) => {
      await fromTheFuture(data);
      const before = await content(data);
      const options = script === "chat" ? ["--data", data] : [];
      const ended = await runProgram(options, ["left"], script, { WETSIDE_DATA: data });
      expect(ended).toMatchObject({ code: 1, output: "" });
      expect(ended.complaint).toContain(`I know up to ${CURRENT}`);
      expect(ended.complaint).toContain("Nothing was changed.");
      expect(await content(data)).toEqual(before);
    }),
);

/** A version after this one, invented: it calls the bench's lead by another name. */
const upgrade: Migration = ({ bench, ...rest }) => {
  const { lead, ...others } = z.looseObject({ lead: z.number() }).parse(bench);
  return { ...rest, bench: { ...others, leadSeconds: lead } };
};
const nextSchema = z.looseObject({
  schemaVersion: z.literal(CURRENT + 1),
  bench: z.looseObject({ leadSeconds: z.number(), zone: z.string() }),
});
/** The steps so far do nothing to a record of today; the one after them is `upgrade`. */
const steps: readonly Migration[] = [
  ...Array.from({ length: CURRENT - 1 }, (): Migration => (record) => ({ ...record })),
  upgrade,
];

async function upgraded(data: string): Promise<void> {
  const store = await openFileStore({
    directory: data,
    schema: nextSchema,
    migrate: (record) => migrate(record, steps),
  });
  const { value, notices } = await store.load("home");
  expect(notices).toEqual([]);
  if (value === undefined) throw new Error("no bench");
  expect(value.bench.leadSeconds).toBe(30);
  await store.commit("home", value, { ...value, bench: { ...value.bench, zone: "Asia/Tokyo" } });
  await store.close();
}

test("up and back again, as DEVELOPERS.md tells: the bench as it was before the upgrade", () =>
  withFrozen(CURRENT, async (data) => {
    const before = await facts(data);
    await upgraded(data);
    const bench = join(data, "benches/home");
    await expect(facts(data)).rejects.toThrow(`I know up to ${CURRENT}`);
    // 1. What the newer version wrote is put away. 2. What was kept aside takes its place.
    await mkdir(join(bench, "newer"));
    for (const name of await readdir(bench)) {
      if (/^(snapshot|journal)-/.test(name)) {
        await rename(join(bench, name), join(bench, "newer", name));
      }
    }
    await cp(join(bench, `aside/version-${CURRENT}.json`), join(bench, "snapshot-1.json"));
    await writeFile(join(bench, "journal-1.jsonl"), "");
    const after = await facts(data);
    expect(after.notices).toEqual([]);
    expect(after.value).toEqual(before.value);
    expect(after.facts).toEqual(before.facts);
    const commands = await loadCommands();
    const store = await openBenches(data);
    const { value } = await store.load("home");
    if (value === undefined) throw new Error("no bench");
    const now = instant(Date.parse(AFTER));
    const { record } = turn(value, { text: "note back again", who: "you" }, now, commands);
    await store.commit("home", value, record);
    await store.close();
    expect((await facts(data)).facts.bottles).toEqual(before.facts.bottles);
  }));

test("up and back again by a backup made before", () =>
  withFrozen(CURRENT, async (data) => {
    const copy = `${data}-copy`;
    const before = await facts(data);
    const told = await runProgram([copy], [], "backup", { WETSIDE_DATA: data });
    expect(told.code).toBe(0);
    await upgraded(data);
    await rm(data, { recursive: true });
    await rename(copy, data);
    expect(await facts(data)).toEqual(before);
  }));

test("reading alone upgrades nothing: the old version still reads it, until something is changed", () =>
  withFrozen(CURRENT, async (data) => {
    const store = await openFileStore({
      directory: data,
      schema: nextSchema,
      migrate: (record) => migrate(record, steps),
    });
    await store.load("home");
    await store.close();
    expect((await facts(data)).notices).toEqual([]);
    expect(await readdir(join(data, "benches/home/aside"))).toEqual([`version-${CURRENT}.json`]);
  }));
