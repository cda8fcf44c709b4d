import { expect, test } from "vitest";
import { MemoryDisk } from "../support/memory-disk.ts";
import { seeded } from "../support/seeded.ts";
import { isWhole, nextTally, openTallies, type Tally } from "../support/tally.ts";

const HOME = "/data/benches/home";

/** A bench of `commits` commits in generations of three, and the value it holds. */
async function written(commits: number): Promise<{ disk: MemoryDisk; tally: Tally }> {
  const disk = new MemoryDisk();
  const store = await openTallies(disk);
  let tally = (await store.load("home")).value;
  for (let commit = 0; commit < commits; commit += 1) {
    const next = nextTally(tally);
    await store.commit("home", tally, next);
    tally = next;
  }
  await store.close();
  if (tally === undefined) throw new Error("Nothing was written.");
  return { disk, tally };
}

const load = async (disk: MemoryDisk) => (await openTallies(disk)).load("home");

/** Commits once more on what was recovered: from then on nothing is amiss any more. */
async function goOn(disk: MemoryDisk): Promise<void> {
  const store = await openTallies(disk);
  const { value } = await store.load("home");
  await store.commit("home", value, nextTally(value));
  await store.close();
  const { value: after, notices } = await load(disk);
  expect(after).toEqual(nextTally(value));
  expect(notices).toEqual([]);
}

test("files of a bench of eight commits", async () => {
  const { disk } = await written(8);
  expect(disk.paths().map((path) => path.slice(HOME.length + 1))).toEqual([
    "journal-2.jsonl",
    "journal-3.jsonl",
    "snapshot-2.json",
    "snapshot-3.json",
  ]);
});

test.each(["", "null", "[]", "\0\0\0\0\0\0", '{"crc":"1234', '{"crc":"00000000","sequence":7}\n'])(
  "a snapshot that reads %j is made again from the one before",
  async (content) => {
    const { disk, tally } = await written(8);
    disk.put(`${HOME}/snapshot-3.json`, content);
    const { value, notices } = await load(disk);
    expect(value).toEqual(tally);
    expect(notices).toEqual([
      "The file benches/home/snapshot-3.json is damaged. I made the bench again from the files beside it: nothing is lost. The damaged file is kept aside as benches/home/aside/snapshot-3.json.",
    ]);
    expect(disk.text(`${HOME}/aside/snapshot-3.json`)).toBe(content);
    await goOn(disk);
    expect(disk.text(`${HOME}/aside/snapshot-3.json`)).toBe(content);
  },
);

test("a missing snapshot is made again from the one before", async () => {
  const { disk, tally } = await written(8);
  disk.drop(`${HOME}/snapshot-3.json`);
  const { value, notices } = await load(disk);
  expect(value).toEqual(tally);
  expect(notices).toHaveLength(1);
  expect(notices[0]).toContain("snapshot-3.json is missing");
  await goOn(disk);
});

test("a last line cut short is dropped and said", async () => {
  const { disk, tally } = await written(8);
  const journal = disk.text(`${HOME}/journal-3.jsonl`) ?? "";
  for (let cut = 1; cut < 30; cut += 7) {
    disk.put(`${HOME}/journal-3.jsonl`, `${journal}${journal.slice(0, cut)}`);
    const { value, notices } = await load(disk);
    expect(value).toEqual(tally);
    expect(notices).toEqual([
      "The last change to this bench was cut short, as by a power cut, and is dropped: it had not been confirmed. Everything before it is there.",
    ]);
  }
  await goOn(disk);
});

test("a damaged line in the middle costs what follows it, and the file is kept aside", async () => {
  const { disk } = await written(8);
  const before = disk.paths().length;
  const name = `${HOME}/journal-2.jsonl`;
  const lines = (disk.text(name) ?? "").split("\n");
  const damaged = lines.with(1, (lines[1] ?? "").replace('"items":[', '"items":[9,')).join("\n");
  disk.put(name, damaged);
  disk.drop(`${HOME}/snapshot-3.json`);
  disk.drop(`${HOME}/journal-3.jsonl`);
  const { value, notices } = await load(disk);
  expect(value).toMatchObject({ count: 4 });
  expect(value !== undefined && isWhole(value)).toBe(true);
  expect(notices).toEqual([
    "The file benches/home/journal-2.jsonl is damaged at line 2. Every change before that line is there; that one and the 1 after it are lost. The damaged file is kept aside as benches/home/aside/journal-2.jsonl.",
  ]);
  expect(disk.text(`${HOME}/aside/journal-2.jsonl`)).toBe(damaged);
  await goOn(disk);
  expect(disk.paths().length).toBeGreaterThan(before - 2);
});

test("a second damage of the same name is kept beside the first", async () => {
  const { disk } = await written(2);
  disk.put(`${HOME}/journal-1.jsonl`, "\0\0\0");
  await load(disk);
  await load(disk);
  disk.put(`${HOME}/journal-1.jsonl`, "\0\0\0\0");
  await load(disk);
  expect(disk.paths().filter((path) => path.includes("aside"))).toEqual([
    `${HOME}/aside/journal-1-2.jsonl`,
    `${HOME}/aside/journal-1.jsonl`,
  ]);
});

test("a journal that is gone is said", async () => {
  const { disk } = await written(2);
  disk.drop(`${HOME}/journal-1.jsonl`);
  const { value, notices } = await load(disk);
  expect(value).toMatchObject({ count: 1 });
  expect(notices[0]).toContain("journal-1.jsonl is missing");
  await goOn(disk);
});

test("when nothing can be read the bench is refused and not touched", async () => {
  const { disk } = await written(8);
  disk.put(`${HOME}/snapshot-3.json`, "null");
  disk.put(`${HOME}/snapshot-2.json`, "");
  const before = disk.paths().map((path) => [path, disk.text(path)]);
  const store = await openTallies(disk);
  await expect(store.load("home")).rejects.toMatchObject({
    kind: "unreadable",
    message: expect.stringContaining(
      "benches/home/snapshot-2.json, benches/home/snapshot-3.json. Nothing was changed.",
    ),
  });
  await expect(store.commit("home", undefined, nextTally(undefined))).rejects.toThrow("loaded");
  expect(disk.paths().map((path) => [path, disk.text(path)])).toEqual(before);
  expect(await store.list()).toEqual(["home"]);
});

test.each([1, 2])("the first journal alone brings back a bench of %d commits", async (commits) => {
  const { disk, tally } = await written(commits);
  disk.put(`${HOME}/snapshot-1.json`, "null");
  expect((await load(disk)).value).toEqual(tally);
  disk.drop(`${HOME}/snapshot-1.json`);
  const { value, notices } = await load(disk);
  expect(value).toEqual(tally);
  expect(notices).toEqual([expect.stringContaining("snapshot-1.json is missing")]);
  await goOn(disk);
});

test("journals that follow a snapshot that is gone are refused, never begun afresh", async () => {
  const { disk } = await written(8);
  disk.drop(`${HOME}/snapshot-2.json`);
  disk.drop(`${HOME}/snapshot-3.json`);
  await expect(load(disk)).rejects.toMatchObject({
    kind: "unreadable",
    message: expect.stringContaining("benches/home/journal-2.jsonl"),
  });
});

test("a disk that cannot be read, or copied to, is named", async () => {
  const { disk } = await written(8);
  disk.fault = ({ name }) => (name === "read" ? { code: "EIO" } : undefined);
  await expect(load(disk)).rejects.toThrow(
    "The disk reported an error (EIO), so I could not read benches/home/snapshot-3.json.",
  );
  disk.fault = ({ name, path }) =>
    name === "write" && path.includes("aside") ? { code: "ENOSPC" } : undefined;
  disk.put(`${HOME}/snapshot-3.json`, "null");
  await expect(load(disk)).rejects.toThrow(
    "The disk is full, so I could not keep a copy of benches/home/snapshot-3.json",
  );
});

test("any damage anywhere is either mended, said or refused, and never makes a false value", async () => {
  for (let seed = 0; seed < 600; seed += 1) {
    const chance = seeded(seed);
    const { disk, tally } = await written(1 + Math.floor(chance() * 12));
    const paths = disk.paths();
    const path = paths[Math.floor(chance() * paths.length)] ?? "";
    const bytes = Buffer.from(disk.text(path) ?? "");
    const at = Math.floor(chance() * bytes.length);
    const end = Math.min(bytes.length, at + 1 + Math.floor(chance() * 20));
    const kind = Math.floor(chance() * 3);
    if (kind === 0) bytes.fill(Math.floor(chance() * 256), at, end);
    const damaged = kind === 1 ? bytes.subarray(0, at) : bytes;
    if (kind === 2) disk.drop(path);
    else disk.put(path, damaged);
    const outcome = await load(disk).catch((error: unknown) => error);
    const where = `seed ${seed}: ${path}`;
    if (outcome instanceof Error) {
      expect(outcome, where).toMatchObject({ kind: "unreadable" });
      continue;
    }
    const { value, notices } = outcome as Awaited<ReturnType<typeof load>>;
    // Only a journal cut exactly between two lines cannot be told from one that ends there.
    const between = kind === 1 && (at === 0 || bytes[at - 1] === 10) && path.endsWith("jsonl");
    const whole = value !== undefined && isWhole(value);
    expect(whole, where).toBe(true);
    if (value?.count !== tally.count && !between) expect(notices.length, where).toBeGreaterThan(0);
    await goOn(disk);
  }
});
