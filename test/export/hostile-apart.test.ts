import { mkdir, readdir } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { performRewrite } from "../../src/conversation/perform/rewrite.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { ExportError } from "../../src/export/export-error.ts";
import { filesIn } from "../../src/export/files.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import type { Store } from "../../src/store/store.ts";
import { withFolder } from "../support/child.ts";
import { archiveOf, type Made } from "../support/hostile-archive.ts";
import { smallPng } from "../support/small-picture.ts";
import { storeApart } from "../support/store-apart.ts";
import { busyBench } from "../support/understand.ts";

/** What the bench and its store are, for all archives one after the other. */
type House = { readonly folder: string; readonly store: Store<BenchRecord> };
let house: House | undefined;
const done = Promise.withResolvers<void>();
let living: Promise<void> | undefined;

beforeAll(async () => {
  const ready = Promise.withResolvers<void>();
  living = withFolder(async (folder) => {
    const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
    await mkdir(join(folder, "exports"));
    await store.load("home");
    await store.commit("home", undefined, newRecord("home", "UTC"));
    house = { folder, store };
    ready.resolve();
    await done.promise;
    await store.close();
  });
  await ready.promise;
});
afterAll(async () => {
  done.resolve();
  await living;
});

/** What a real store and the thread that restores say of it; what is refused changes nothing. */
async function said(made: Made): Promise<string> {
  if (house === undefined) throw new Error("there is no store");
  const { folder, store } = house;
  await archiveOf(join(folder, "exports", "x.zip"), made);
  const { value } = await store.load("home");
  if (value === undefined) throw new Error("there is no bench");
  const bench = { id: "home", record: value, store: storeApart(store), files: filesIn(folder) };
  try {
    const { reply } = await performRewrite(bench, { kind: "restore", file: "x.zip" });
    return reply.title;
  } catch (error) {
    if (!(error instanceof ExportError)) throw error;
    expect((await store.load("home")).value).toBe(value);
    // Nothing half written is left either.
    expect(await readdir(join(folder, "benches"))).toEqual(["home"]);
    return error.message;
  }
}

const fresh = newRecord("home", "UTC");
const withBench = (change: object): string =>
  JSON.stringify({ ...fresh, bench: { ...fresh.bench, ...change } });

const [bottle] = Object.values(busyBench.bench.bottles);
const bottles = (count: number) =>
  Object.fromEntries(
    Array.from({ length: count }, (_, n) => [
      `bottle-${n}`,
      { ...bottle, id: `bottle-${n}`, name: `Acorn ${n}` },
    ]),
  );

describe("an archive over what is taken in passing, in the thread that restores", () => {
  test("one with more values than any bench has is not even parsed", async () => {
    const many = `{"v":[${"{},[],".repeat(300_000)}{}],${JSON.stringify(fresh).slice(1)}`;
    expect(await said({ bench: many })).toMatch(
      /^That archive is larger than I can restore here\./,
    );
  });

  test("one that holds what no bench has, however small its values", async () => {
    const many = `{"v":[${"{},[],".repeat(100_000)}{}],${JSON.stringify(fresh).slice(1)}`;
    expect(await said({ bench: many })).toMatch(/"v", which no bench of mine has/);
    const within = withBench({ more: "x".repeat(600_000) });
    expect(await said({ bench: within })).toMatch(/"bench\.more", which no bench/);
  });

  test("more bottles, people and steps of undo than any bench has", async () => {
    const few = JSON.stringify({ ...fresh, bench: { ...fresh.bench, notes: [] } });
    const long = `"notes":[{"at":1,"by":"Ines","text":"${"x".repeat(600_000)}"}]`;
    const big = few.replace('"notes":[]', long);
    const step = { label: "x", at: 1, changes: [] };
    const undo = `"undo":${JSON.stringify(Array.from({ length: 51 }, () => step))}`;
    expect(await said({ bench: big.replace('"undo":[]', undo) })).toContain("51 undo steps");
    const people = Object.fromEntries(Array.from({ length: 1001 }, (_, n) => [`P${n}`, {}]));
    const threads = `"threads":${JSON.stringify(people)}`;
    expect(await said({ bench: big.replace('"threads":{}', threads) })).toContain("1,001 people");
    const many = withBench({ bottles: bottles(20_001) });
    expect(await said({ bench: many })).toMatch(/larger than I can restore|20,001 bottles/);
  });

  test("a run that is far too long, or holds far too much", async () => {
    const entry = { id: "run-1", title: "x", tank: "north", plannedAt: 1 };
    const bench = withBench({ pastRuns: [entry] });
    const long = `{"id":"run-1","run":{"title":"${"x".repeat(1_200_000)}"}}\n`;
    expect(await said({ bench, runs: long })).toContain("far too long");
    const much = `{"id":"run-1","run":[${"{},".repeat(200_000)}{}]}\n`;
    expect(await said({ bench, runs: much })).toMatch(/^That archive is larger/);
  });

  test("a picture that is none", async () => {
    const bench = JSON.stringify(fresh);
    const program = Buffer.concat([Buffer.from("MZ"), Buffer.alloc(600_000, 1)]);
    const pictures = new Map([["run-1.png", program]]);
    expect(await said({ bench, pictures })).toContain("run-1.png in that archive is no picture");
  });

  test("an honest one of ten thousand bottles is taken, and its pictures", async () => {
    const png = smallPng(new Uint8Array([1, 2, 3]));
    const bench = withBench({ bottles: bottles(10_000) });
    const pictures = new Map([["run-1.png", png]]);
    expect(await said({ bench, pictures })).toContain("10000 bottles, 1 picture");
    expect(await readdir(join(house?.folder ?? "", "pictures"))).toEqual(["run-1.png"]);
  });
});
