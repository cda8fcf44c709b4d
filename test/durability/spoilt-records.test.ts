import { beforeAll, expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { decide, nextDue } from "../../src/domain/session/decide.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { MemoryDisk } from "../support/memory-disk.ts";
import { seeded } from "../support/seeded.ts";
import { liveShortSession } from "../support/short-session.ts";

const commands = await loadCommands();
const ASKED = [
  "left",
  "plan",
  "bottles",
  "rolls",
  "summary",
  "in",
  "temperature 37.9",
  "undo",
  "next",
];

let records: readonly unknown[] = [];

beforeAll(async () => {
  const lived = await liveShortSession(new MemoryDisk(), { tells: () => {}, done: () => {} });
  records = lived.records.map((record) => JSON.parse(JSON.stringify(record)));
});

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

const ODD: readonly Json[] = [
  null,
  true,
  -1,
  0,
  1e308,
  0.5,
  "",
  "x".repeat(2000),
  [],
  {},
  "wash",
  -3e15,
];

/** One value somewhere inside, replaced, removed or doubled. Altered in place. */
function spoil(value: Json, chance: () => number): void {
  if (typeof value !== "object" || value === null) return;
  const keys = Object.keys(value);
  const key = keys[Math.floor(chance() * keys.length)];
  if (key === undefined) return;
  const holder = value as { [key: string]: Json };
  const inner = holder[key];
  if (typeof inner === "object" && inner !== null && chance() < 0.85) {
    spoil(inner, chance);
    return;
  }
  const kind = Math.floor(chance() * 3);
  if (kind === 0) holder[key] = ODD[Math.floor(chance() * ODD.length)] ?? null;
  else if (kind === 1 && !Array.isArray(value)) delete holder[key];
  else if (Array.isArray(value)) value.push(structuredClone(inner ?? null));
  else holder[`${key}2`] = structuredClone(inner ?? null);
}

test("a stored record with a value spoilt is refused, or is a bench one can talk to", () => {
  let refused = 0;
  let taken = 0;
  for (let seed = 1; seed <= 500; seed += 1) {
    const chance = seeded(seed);
    const whole = structuredClone(records[Math.floor(chance() * records.length)]) as Json;
    spoil(whole, chance);
    const read = recordSchema.safeParse(whole);
    if (!read.success) {
      refused += 1;
      continue;
    }
    taken += 1;
    let record: BenchRecord = read.data;
    const at = instant(nextDue(record.bench) ?? 1_795_900_000_000);
    const where = `seed ${seed}`;
    for (const text of ASKED.slice(Math.floor(chance() * 5))) {
      const heard = turn(record, { text, who: "you" }, at, commands);
      expect(heard.reply.title, `${where}: ${text}`).not.toMatch(/undefined|NaN/);
      record = heard.record;
    }
    expect(() => decide(record.bench, instant(at + 60_000)), where).not.toThrow();
  }
  expect(refused).toBeGreaterThan(100);
  expect(taken).toBeGreaterThan(100);
}, 120_000);
