import { expect, test } from "vitest";
import { z } from "zod";
import { livedRun } from "../../test/support/lived-run.ts";
import { at, evening, runOf, stageOf } from "../../test/support/runs.ts";
import { type Command, defineCommand } from "../commands/define-command.ts";
import { allRuns } from "../domain/session/past.ts";
import type { Run } from "../domain/session/run.ts";
import { later } from "../domain/units/quantity.ts";
import { answer } from "../reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../store/memory-store.ts";
import { StoreError } from "../store/store-error.ts";
import { BenchKeeper } from "./bench-keeper.ts";
import { type BenchRecord, newRecord } from "./record.ts";

const look = (reads: boolean): Command =>
  defineCommand({
    name: reads ? "look back" : "look here",
    summary: "How many runs there are.",
    topic: "bench",
    sentences: [reads ? "look back" : "look here"],
    examples: ["look back"],
    fields: z.object({}),
    changes: false,
    ...(reads ? { reads: "past-runs" as const } : {}),
    values: { runs: "ids" },
    run: ({ bench, past }) =>
      answer({
        title: "Runs.",
        say: "Runs.",
        facts: { runs: allRuns(bench, past).map(({ id }) => id) },
      }),
  });
const commands = [look(true), look(false)];

const ended = (n: number): Run => {
  const run = livedRun(runOf([stageOf()]));
  const on = later(evening, n * 86_400);
  return { ...run, id: `run-${n}`, plannedAt: on, endedAt: later(on, 600) };
};

/** A bench with `count` ended runs at hand, and a store that counts what is recalled. */
async function benchWithRuns(count: number) {
  const memory = emptyMemory<BenchRecord>();
  const fresh = newRecord("home", "Europe/Lisbon");
  const runs = Object.fromEntries(
    Array.from({ length: count }, (_, n) => [`run-${n + 1}`, ended(n + 1)]),
  );
  memory.benches.set("home", { ...fresh, bench: { ...fresh.bench, runs } });
  const store = createMemoryStore(memory);
  const recalled: string[] = [];
  const counted: typeof store = {
    ...store,
    recall: (id, name) => {
      recalled.push(name);
      return store.recall(id, name);
    },
  };
  const { keeper } = await BenchKeeper.open("home", { zone: "UTC" }, counted, commands);
  const now = later(evening, 400 * 86_400);
  const say = (text: string) => keeper.hear({ text, who: "Ines" }, now);
  // Any turn lets old runs leave for the archive.
  await say("look here");
  return { keeper, memory, recalled, say, now };
}

const ids = (from: number, to: number): string[] =>
  Array.from({ length: to - from + 1 }, (_, n) => `run-${from + n}`);

test("a command that reads the past sees every run, oldest first, and files are read once", async () => {
  const { say, recalled } = await benchWithRuns(30);
  expect((await say("look here")).facts.runs).toEqual(ids(23, 30));
  expect(recalled).toEqual([]);
  expect((await say("look back")).facts.runs).toEqual(ids(1, 30));
  expect((await say("look back")).facts.runs).toEqual(ids(1, 30));
  expect(recalled).toHaveLength(22);
});

test("what is archived while the past is held joins it, and is let go after ten minutes", async () => {
  const { keeper, say, recalled, now } = await benchWithRuns(10);
  await say("look back");
  expect(recalled).toHaveLength(2);
  await keeper.look(later(now, 500), () => undefined);
  await say("look back");
  expect(recalled).toHaveLength(2);
  await keeper.look(later(now, 601), () => undefined);
  expect((await say("look back")).facts.runs).toEqual(ids(1, 10));
  expect(recalled).toHaveLength(4);
});

test("a damaged, a misshapen and a missing record are told of and stepped over", async () => {
  const { memory, say } = await benchWithRuns(14);
  const archive = memory.archives.get("home");
  archive?.set("run-2", { ...ended(2), stages: "none" });
  archive?.delete("run-4");
  const recall = archive?.get.bind(archive);
  if (archive === undefined || recall === undefined) throw new Error("nothing was archived");
  archive.get = (name) => {
    if (name === "run-3") throw new StoreError("unreadable", "It is damaged.");
    return recall(name);
  };
  const reply = await say("look back");
  expect(reply.facts.runs).toEqual([...ids(1, 1), ...ids(5, 14)]);
  expect(reply.cautions).toHaveLength(3);
  expect(reply.cautions.join(" ")).toMatch(
    /run-2.*run must hold.*run-3.*cannot be read.*run-4.*missing/,
  );
  expect((await say("look here")).cautions).toEqual([]);
});

test("cues are given while the past is being read", async () => {
  const memory = emptyMemory<BenchRecord>();
  const fresh = newRecord("home", "UTC");
  const past = { ...ended(-1), id: "run-1" };
  const { plannedAt, id, tank, title } = past;
  const bench = {
    ...fresh.bench,
    pastRuns: [{ id, tank, title, plannedAt }],
    runs: { "run-2": runOf([stageOf()], { id: "run-2" }) },
  };
  memory.benches.set("home", { ...fresh, bench });
  const reading = Promise.withResolvers<unknown>();
  const store = { ...createMemoryStore(memory), recall: () => reading.promise };
  const { keeper } = await BenchKeeper.open("home", { zone: "UTC" }, store, commands);
  const answered = keeper.hear({ text: "look back", who: "Ines" }, evening);
  const cues: string[] = [];
  await keeper.tick(at(30), (replies) => {
    cues.push(...replies.map(({ kind }) => kind));
  });
  expect(cues).toContain("cue");
  reading.resolve(past);
  expect((await answered).facts.runs).toEqual(["run-1", "run-2"]);
});
