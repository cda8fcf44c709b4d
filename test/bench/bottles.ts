import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import type { Bottle } from "../../src/domain/chemistry/bottle.ts";
import { instant, millilitres, units } from "../../src/domain/units/quantity.ts";
import { percentile } from "./percentile.ts";

export type BottleSpeed = {
  readonly bottles: number;
  readonly runs: number;
  readonly turns: number;
  /** In ms. */
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
};

const BOTTLES = 200;
const RUNS = 500;
const ROUNDS = 60;
const WARM_UP = 5;

const at = instant(Date.parse("2026-11-28T09:00:00Z"));

/** Names of letters alone, none of them another's beginning. */
const name = (index: number): string =>
  `q${String.fromCharCode(97 + (index % 26))}v${String.fromCharCode(97 + Math.floor(index / 26))}z`;

const bottle = (index: number): Bottle => ({
  id: `bottle-${index}`,
  name: name(index),
  mark: "square",
  bath: index % 2 === 0 ? "developer" : "blix",
  sheet: "demo",
  volume: millilitres(1000),
  mixedOn: "2026-11-01",
  by: "me",
  used: units(index % 7),
  fills: [
    { on: "2026-11-01", fill: "full" },
    { on: "2026-11-09", fill: "half" },
  ],
  ...(index > 100 ? { mixedFrom: [`bottle-${index - 1}`] } : {}),
});

/** A bench of a club: many bottles, many runs moved to files of their own. */
function bigBench(): BenchRecord {
  const fresh = newRecord("t", "Europe/Lisbon");
  const all = Array.from({ length: BOTTLES }, (_, index) => bottle(index));
  return {
    ...fresh,
    bench: {
      ...fresh.bench,
      sheetInUse: "demo",
      nextId: 9000,
      bottles: Object.fromEntries(all.map((one) => [one.id, one])),
      pastRuns: Array.from({ length: RUNS }, (_, index) => ({
        id: `run-${index}`,
        title: "developer",
        tank: "North",
        plannedAt: instant(at - index * 1000),
        touched: {
          bottles: [`bottle-${index % BOTTLES}`],
          sheet: "demo",
          thermometers: ["red"],
          film: [{ format: "120" as const, count: 2 }],
        },
      })),
    },
  };
}

const asked = (one: string): readonly string[] => [
  "bottles",
  `how is ${one}`,
  "which bottle for developer",
  "can I do two 120 and a 135",
  `how many rolls are left in ${one}`,
  `poured 10 ml from ${one}`,
  `nothing back in ${one}`,
  `${one} is suspect`,
  `recall ${one}`,
  "recall",
  `clip test ${one} passed`,
  `${one} cost 14 euros`,
  "what does a roll cost",
  `how long for push two from ${one}`,
  `start developer one roll from ${one} tank north`,
  "stop tank north",
  "bottle blix 1 litre mixed today called Xylophone",
  "undo",
];

/** Every bottle command on a big bench, again and again: the time of a whole turn. */
export async function benchBottles(): Promise<BottleSpeed> {
  const commands = await loadCommands();
  let record = bigBench();
  const times: number[] = [];
  for (let round = 0; round < ROUNDS + WARM_UP; round += 1) {
    for (const text of asked(name(4 + 2 * (round % 40)))) {
      const start = performance.now();
      const after = turn(record, { text, who: "me" }, at, commands);
      if (round >= WARM_UP) times.push(performance.now() - start);
      if (after.reply.facts.reason === "not-understood") throw new Error(`not heard: ${text}`);
      record = after.record;
    }
  }
  return {
    bottles: BOTTLES,
    runs: RUNS,
    turns: times.length,
    p50: percentile(times, 50),
    p99: percentile(times, 99),
    max: Math.max(...times),
  };
}
