import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { type Instant, instant, later } from "../../src/domain/units/quantity.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import type { Store } from "../../src/store/store.ts";
import { percentile } from "./percentile.ts";

export type Hearing = {
  readonly sentences: number;
  /** In ms, from the sentence to its reply. */
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
  /** The sentence that took longest at its median, and that median. */
  readonly slowest: { readonly sentence: string; readonly ms: number };
};

/** Said on a bench with two bottles and a run in its first bath; none of them ends the run. */
const SENTENCES = [
  "how much water for a quart of developer",
  "mix 600 ml of developer",
  "what do I need for half a litre of blix",
  "600 ml at 1+9",
  "six hundred and fifty millilitres at one plus nine",
  "one to nine for 500 ml",
  "from 28 % to 2 %, one litre",
  "mix 20 % with 5 % to get 8 %",
  "hot water at 60 and cold at 12 to 38 degrees, one litre",
  "formulas",
  "sheets",
  "settings",
  "bottles",
  "bottle developer 1 quart mixed yesterday",
  "undo",
  "bottle fixer 2 litres mixed on the 3rd of november",
  "undo",
  "bottle blix 1 litre mixed 3nov2026",
  "undo",
  "left",
  "plan",
  "again",
  "how long is left in tank north",
  "temperature 37.8",
  "temperature a hundred and one fahrenheit",
  "note the thermometer reads half a degree high",
  "undo",
  "why",
  "help",
  "help mix",
  "help values",
  "summary",
  "hold",
  "wet",
  "light",
  "set lead to 20 seconds",
  "start developer two rolls tank south",
  "undo",
  "hwo much watre for a quart of develper",
  "cancel",
  "flibber the gabbet with seven small spoons of nothing at all",
  "the the the the the of of of of now now please please developer",
  "eyes",
  "999999999 litres at 1+9",
  `${"very ".repeat(150)}long`,
] as const;

const START = instant(Date.UTC(2026, 10, 28, 19, 30));
const PREPARE = [
  "set ounces us",
  "bottle developer 1 quart mixed yesterday",
  "bottle fixer 1 quart mixed today",
  "start blix for 20 hours tank north",
  "ready",
  "in",
];

async function measure(store: Store<BenchRecord>, rounds: number): Promise<Hearing> {
  const commands = await loadCommands();
  await store.load("bench");
  const { keeper } = await BenchKeeper.open("bench", { zone: "Europe/Lisbon" }, store, commands);
  let now: Instant = START;
  const say = async (text: string): Promise<number> => {
    now = instant(Math.round(later(now, 0.5)));
    const begin = performance.now();
    await keeper.hear({ text, who: "bench" }, now);
    return performance.now() - begin;
  };
  for (const text of PREPARE) await say(text);
  const took = new Map<string, number[]>();
  const warmUp = Math.ceil(rounds / 5);
  for (let round = 0; round < rounds + warmUp; round += 1) {
    for (const text of SENTENCES) {
      const ms = await say(text);
      if (round >= warmUp) took.set(text, [...(took.get(text) ?? []), ms]);
    }
  }
  const all = [...took.values()].flat();
  const medians = [...took].map(([sentence, ms]) => ({ sentence, ms: percentile(ms, 50) }));
  const slowest = medians.reduce((worst, one) => (one.ms > worst.ms ? one : worst));
  return {
    sentences: new Set(SENTENCES).size,
    p50: percentile(all, 50),
    p99: percentile(all, 99),
    max: percentile(all, 100),
    slowest,
  };
}

/** Keeps nothing: what is left is the work of finding the answer. */
const forgetful: Store<BenchRecord> = {
  load: async () => ({ value: undefined, notices: [] }),
  commit: async () => undefined,
  archive: async () => undefined,
  recall: async () => undefined,
  rewrite: async (_id, _previous, next) => next,
  list: async () => [],
  close: async () => undefined,
};

/** Sentence to reply in this process, every template loaded, with nothing to write to. */
export const benchHearing = (rounds = 100): Promise<Hearing> => measure(forgetful, rounds);

/** The same with the file store: what changes the bench is on disk before its reply. */
export async function benchKeeping(rounds = 40): Promise<Hearing> {
  const directory = await mkdtemp(join(tmpdir(), "wetside-bench-"));
  try {
    const store = await openFileStore({ directory, schema: recordSchema });
    const hearing = await measure(store, rounds);
    await store.close();
    return hearing;
  } finally {
    await rm(directory, { recursive: true, force: true });
  }
}
