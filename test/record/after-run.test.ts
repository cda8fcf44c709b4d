import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { later } from "../../src/domain/units/quantity.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { evening } from "../support/runs.ts";

const commands = await loadCommands();

/** A bench that is spoken to; numbers move its clock on by so many seconds. */
async function bench() {
  const store = createMemoryStore(emptyMemory<BenchRecord>());
  const { keeper } = await BenchKeeper.open("t", { zone: "Europe/Lisbon" }, store, commands);
  let now = evening;
  const told: Reply[] = [];
  const say = async (...words: readonly (string | number)[]): Promise<Reply> => {
    let reply: Reply | undefined;
    for (const word of words) {
      if (typeof word === "string") {
        reply = await keeper.hear({ text: word, who: "Ines" }, now);
        continue;
      }
      now = later(now, word);
      for (let due = keeper.nextDue(); due !== undefined && due <= now; due = keeper.nextDue()) {
        await keeper.tick(due, (replies) => void told.push(...replies));
      }
    }
    if (reply === undefined) throw new Error("nothing was said");
    return reply;
  };
  return {
    say,
    told,
    run: (tank: string) =>
      Object.values(keeper.record.bench.runs).findLast((one) => one.tank === tank),
  };
}

const DEVELOPED = ["start developer tank north", "ready", "in", 195, "out"] as const;

test("at most two questions, each with a way out, and then never again by itself", async () => {
  const { say } = await bench();
  const first = await say(...DEVELOPED);
  expect(first.title).toContain("How warm was the developer");
  expect(first.ask?.options?.map(({ word }) => word)).toEqual(["skip"]);
  const second = await say("skip");
  expect(second.title).toContain("Anything different today?");
  const last = await say("no");
  expect([last.kind, last.ask]).toEqual(["reply", undefined]);
  expect((await say("wrap up")).title).toContain("nothing is left to ask");
});

test("any command goes before the question, and puts it aside without a word", async () => {
  const { say, run } = await bench();
  await say(...DEVELOPED, "skip");
  expect((await say("bottles")).title).toContain("No bottle");
  expect((await say("no")).title).not.toContain("nothing different");
  expect(run("North")?.after).toEqual({ temperatures: "declined" });
});

test("a slip of the pen is no answer: it is asked about, and what was meant is done", async () => {
  const { say, run } = await bench();
  await say(...DEVELOPED, "skip");
  expect((await say("botles")).title).toBe('Did you mean "bottles"?');
  expect((await say("yes")).title).toContain("No bottle");
  expect(run("North")?.after?.different).toBe(undefined);
});

test("nobody is asked while another tank is wet; then once, for both", async () => {
  const { say, run } = await bench();
  await say("set one person per tank", "start developer tank north", "ready", "in");
  await say(60, "start developer tank south", "south ready", "south in", 130);
  const north = await say("north out");
  expect(north.ask).toBe(undefined);
  expect(north.lines.join(" ")).toContain(
    "Once no tank is wet, say wrap up for two short questions.",
  );
  expect((await say("wrap up")).title).toContain("Film is wet");
  const south = await say(60, "south out");
  expect(south.title).toContain("How warm was the developer");
  expect((await say("skip")).title).toContain("Anything different today with South or North?");
  await say("the tap ran cold");
  for (const tank of ["North", "South"]) {
    expect(run(tank)?.after?.different).toBe("the tap ran cold");
  }
});

test("a tank that is named in the answer is the only one it is about", async () => {
  const { say, run } = await bench();
  await say("set one person per tank", "start developer tank north", "ready", "in");
  await say(60, "start developer tank south", "south ready", "south in", 130, "north out");
  await say(60, "south out", "skip", "north leaked a little");
  expect(run("North")?.after?.different).toBe("north leaked a little");
  expect(run("South")?.after?.different).toBe(undefined);
});

test("temperatures told afterwards are readings of their moments, corrected like any other", async () => {
  const { say, run } = await bench();
  await say("the glass thermometer is the reference");
  await say("the red thermometer reads 38.4 where the reference reads 38.0");
  await say(...DEVELOPED);
  await say("developer was 38.2 at the start and 37.8 at the end on the red thermometer");
  const north = run("North");
  const readings = north?.readings.map(({ at, temperature, read, asked }) => ({
    at,
    temperature: Number(temperature.toFixed(6)),
    read,
    asked,
  }));
  const [stage] = north?.stages ?? [];
  expect(readings).toEqual([
    { at: stage?.inAt, temperature: 37.8, read: 38.2, asked: "start" },
    { at: stage?.outAt, temperature: 37.4, read: 37.8, asked: "end" },
  ]);
});

test("a value no bath has is said back and asked again; nothing is logged", async () => {
  const { say, run } = await bench();
  const asked = await say(...DEVELOPED, "38 and 64");
  expect(asked.kind).toBe("question");
  expect(asked.title).toContain("17.8 °C (64 °F) at the end, 20 °C from the aim");
  expect(run("North")?.readings).toEqual([]);
});

test("told twice, the later word stands", async () => {
  const { say, run } = await bench();
  await say(...DEVELOPED, "38 and 37", "developer was 37.9 at the end");
  expect(run("North")?.readings.map(({ temperature, asked }) => [asked, temperature])).toEqual([
    ["start", 38],
    ["end", 37.9],
  ]);
});

test("the first look comes with the daily message of the next morning, once", async () => {
  const { say, told } = await bench();
  await say(...DEVELOPED, "skip", "no", 14 * 3600, "time");
  const looks = () => told.filter(({ lines }) => lines.some((one) => one.includes("first look")));
  expect(looks()).toHaveLength(1);
  await say(3 * 86_400, "time");
  expect(looks()).toHaveLength(1);
});

test("the first look keeps what was seen, and asks what is still open about the run", async () => {
  const { say, run } = await bench();
  await say(...DEVELOPED, "skip", "time", 40_000);
  await say("first look", "faint", "cloudy", "skip");
  const last = await say("same place");
  expect(last.title).toContain("Anything different today?");
  expect(run("North")?.firstLook).toMatchObject({
    edgeNumbers: "faint",
    clearParts: "cloudy",
    place: "same",
  });
  expect(run("North")?.firstLook).not.toHaveProperty("rebate");
  await say("no");
  const scanned = await say("first look by scanner", "201 128 90 of 255", "51 50 49 percent");
  expect(scanned.facts.grey_rgb).toEqual({ red: 51, green: 50, blue: 49, most: 100 });
});

test("what went wrong at the tank is in its record without a note", async () => {
  const { say } = await bench();
  await say("start developer tank north", "ready", "in", 30, "trouble", "spill", "no");
  expect((await say("summary")).lines.join("\n")).toContain(
    "Odd: trouble 30 s after the first pour: spill or leak. Is anything on skin or in eyes? no",
  );
});

test("a run that is given up is asked for its reason alone", async () => {
  const { say, run } = await bench();
  const asked = await say("start developer tank north", "ready", "in", 30, "stop", "yes");
  expect(asked.title).toContain("What made you stop?");
  await say("the lid leaked");
  expect(run("North")?.stoppedBecause).toBe("the lid leaked");
  const { lines } = await say("summary");
  expect(lines).toContain("Stopped: the lid leaked");
  expect(lines.join(" ")).not.toContain("Different");
});
