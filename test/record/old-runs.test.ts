import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { instant, later } from "../../src/domain/units/quantity.ts";
import { valuesOf } from "../../src/reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { livedRun } from "../support/lived-run.ts";
import { evening, runOf, stageOf, washOf } from "../support/runs.ts";

const commands = await loadCommands();
const DAY = 86_400;

/** INVENTED: ten evenings of Dora's, each with a tank of its own; the oldest stand in files. */
async function tenEvenings() {
  const memory = emptyMemory<BenchRecord>();
  const fresh = newRecord("home", "Europe/Lisbon");
  const runs = Array.from({ length: 10 }, (_, n) => {
    const lived = livedRun(runOf([stageOf(), washOf()]));
    const { endedAt = evening } = lived;
    return {
      ...lived,
      id: `run-${n + 1}`,
      tank: `Tank ${"ABCDEFGHIJ"[n]}`,
      by: "Dora",
      people: [{ name: "Dora", did: ["planned" as const] }],
      plannedAt: later(lived.plannedAt, n * DAY),
      endedAt: later(endedAt, n * DAY),
    };
  });
  memory.benches.set("home", {
    ...fresh,
    bench: { ...fresh.bench, runs: Object.fromEntries(runs.map((run) => [run.id, run])) },
  });
  const place = { zone: "Europe/Lisbon" };
  const { keeper } = await BenchKeeper.open("home", place, createMemoryStore(memory), commands);
  const say = (text: string) =>
    keeper.hear({ text, who: "Ines" }, instant(evening + 12 * DAY * 1000));
  await say("settings");
  expect(keeper.record.bench.pastRuns.map(({ id }) => id)).toEqual(["run-1", "run-2"]);
  return { keeper, memory, say };
}

test.each([
  ["summary of tank A", "run-1"],
  ["summary of tank B as markdown", "run-2"],
  ["picture of run 1", "run-1"],
  ["run 2 as json", "run-2"],
  ["show run 9", "run-9"],
  ["share tank B", "run-2"],
  ["share run 1", "run-1"],
  ["share picture of run 1", "run-1"],
  ["who did what in run 1", "run-1"],
])("%s finds a run that stands in a file as well", async (text, id) => {
  const { say } = await tenEvenings();
  const reply = await say(text);
  expect([text, reply.kind === "refusal", valuesOf(reply).run]).toEqual([text, false, id]);
});

test("a first look reaches a run in a file, which goes back there with it", async () => {
  const { keeper, memory, say } = await tenEvenings();
  await say("all runs");
  expect((await say("first look at run 1")).title).toContain("Tank A");
  await say("faint");
  await say("cloudy");
  await say("clear");
  const last = await say("none");
  expect(last.title).toBe("First look at Tank A is in the record.");
  expect(last.ask).toBeUndefined();
  const { bench } = keeper.record;
  expect(bench.pastRuns.map(({ id }) => id)).toEqual(["run-1", "run-2"]);
  expect(memory.archives.get("home")?.get("run-1")).toMatchObject({
    by: "Dora",
    people: [
      { name: "Dora", did: ["planned"] },
      { name: "Ines", did: ["answered"] },
    ],
    firstLook: { edgeNumbers: "faint", clearParts: "cloudy" },
  });
  expect((await say("summary of tank A")).lines.join(" ")).toContain("numbers faint");
  expect(valuesOf(await say("all runs")).count).toBe(10);
});

test("after a long evening the first look is asked of every run, also of those in files", async () => {
  const { keeper, say } = await tenEvenings();
  const looked: unknown[] = [];
  for (let n = 0; n < 10; n += 1) {
    looked.push(valuesOf(await say("first look")).run);
    await say("all good");
  }
  expect(looked).toEqual([10, 9, 8, 7, 6, 5, 4, 3, 2, 1].map((n) => `run-${n}`));
  expect(keeper.record.bench.pastRuns.map(({ id, unseen }) => [id, unseen])).toEqual([
    ["run-1", undefined],
    ["run-2", undefined],
  ]);
});

test("a run nobody made is not made up", async () => {
  const { say } = await tenEvenings();
  for (const text of ["share run 77", "first look at run 77", "picture of run 77"]) {
    expect(valuesOf(await say(text)).reason).toBe("no-run");
  }
});
