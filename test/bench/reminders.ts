import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { dailyLooks } from "../../src/commands/daily-looks.ts";
import { planDaily } from "../../src/domain/reminders/daily-message.ts";
import type { Looks } from "../../src/domain/reminders/looks.ts";
import type { Reminder } from "../../src/domain/reminders/reminder.ts";
import { type Bench, newBench } from "../../src/domain/session/bench.ts";
import { decide, nextDue } from "../../src/domain/session/decide.ts";
import {
  type Instant,
  instant,
  later,
  millilitres,
  units,
} from "../../src/domain/units/quantity.ts";
import { createHeap } from "../../src/scheduler/heap.ts";
import { seeded } from "../support/seeded.ts";
import { percentile } from "./percentile.ts";

export type ReminderFigures = {
  /** The daily look over this many benches, each with 20 bottles and 10 reminders, s in all. */
  readonly benches: number;
  readonly lookSeconds: number;
  /** How many messages were given. */
  readonly messages: number;
  /** Planning the next message of one bench with 200 bottles, ms. */
  readonly planP50: number;
  readonly planP99: number;
  /** Pending reminders in memory with their heap, and what they take, MB. */
  readonly pending: number;
  readonly pendingMB: number;
};

const NOW = instant(Date.UTC(2026, 10, 28, 8, 0));
const NINE = instant(Date.UTC(2026, 10, 28, 9, 0));
const DAY = 86_400;

function benchWithBottles(id: string, bottles: number, reminders: number): Bench {
  const bench = newBench(id, "Europe/Lisbon");
  const chance = seeded(bottles + id.length);
  const mixed = Temporal.PlainDate.from("2026-10-12");
  return {
    ...bench,
    bottles: Object.fromEntries(
      Array.from({ length: bottles }, (_, at) => [
        `b${at}`,
        {
          id: `b${at}`,
          name: `Bottle ${at}`,
          mark: "ring",
          bath: at % 2 === 0 ? "developer" : "blix",
          volume: millilitres(1000),
          mixedOn: mixed.add({ days: Math.floor(chance() * 40) }).toString(),
          by: "hands",
          used: units(Math.floor(chance() * 8)),
        },
      ]),
    ),
    reminders: Object.fromEntries(
      Array.from({ length: reminders }, (_, at) => [`m${at}`, reminderOf(`m${at}`, chance())]),
    ),
  };
}

const reminderOf = (id: string, chance: number): Reminder => ({
  id,
  text: `thing number ${id} to be done on the bench`,
  owner: "hands",
  rule: { kind: "once" },
  due: { at: later(NINE, Math.floor(chance * 90 * DAY)) },
});

/** The daily look, the planning of it, and the memory reminders take. */
export function benchReminders(
  benches = 10_000,
  pending = 100_000,
  looks: Looks = dailyLooks,
): ReminderFigures {
  const planned = Array.from({ length: benches }, (_, at) =>
    planDaily(benchWithBottles(`bench ${at}`, 20, 10), NOW, looks),
  );
  const start = performance.now();
  let messages = 0;
  for (const bench of planned) {
    const { given = [], bench: after } = decide(bench, NINE, looks);
    messages += given.length;
    nextDue(after);
  }
  const lookSeconds = (performance.now() - start) / 1000;

  const big = benchWithBottles("big", 200, 100);
  const took: number[] = [];
  for (let turn = 0; turn < 100; turn += 1) {
    const began = performance.now();
    planDaily(big, instant(NOW + turn), looks);
    took.push(performance.now() - began);
  }
  return {
    benches,
    lookSeconds,
    messages,
    planP50: percentile(took, 50),
    planP99: percentile(took, 99),
    pending,
    pendingMB: memoryOf(pending),
  };
}

/** Reminders spread over benches of ten, with the heap that wakes for each bench. */
function memoryOf(pending: number): number {
  setFlagsFromString("--expose-gc");
  const collect = runInNewContext("gc") as () => void;
  collect();
  const before = process.memoryUsage().heapUsed;
  const heap = createHeap();
  const kept: Bench[] = [];
  for (let at = 0; at < pending / 10; at += 1) {
    const bench = benchWithBottles(`bench ${at}`, 0, 10);
    kept.push(bench);
    const due: Instant | undefined = nextDue(bench);
    if (due !== undefined) heap.set(bench.id, due);
  }
  collect();
  const after = process.memoryUsage().heapUsed;
  if (heap.size() + kept.length === 0) return 0;
  return (after - before) / 1e6;
}
