import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { later } from "../../src/domain/units/quantity.ts";
import { evening } from "../support/runs.ts";
import { type Outline, seasonOf } from "../support/season.ts";
import { seeded } from "../support/seeded.ts";
import { percentile } from "./percentile.ts";

export type LogSearch = {
  readonly runs: number;
  /** In ms, the very first search: nothing of a run is worked out yet. */
  readonly first: number;
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
  /** The question that took longest at its median, and that median. */
  readonly slowest: { readonly sentence: string; readonly ms: number };
};

const QUESTIONS = [
  "last time I pushed two stops",
  "all runs with Dora",
  "what temperature do I usually end at",
  "runs with Acorn",
  "runs in October",
  "how often did the wash run short",
  "show run 12",
  "the run of 3 november",
  "runs of 120 pushed one stop with Bruno between march and may",
  "how long do I usually wash",
] as const;

/** INVENTED: some runs a day over the years before the evening of all tests. */
function outlines(runs: number): readonly Outline[] {
  const chance = seeded(11);
  const one = <T>(...from: readonly T[]): T => from[Math.floor(chance() * from.length)] as T;
  return Array.from({ length: runs }, (_, n): Outline => {
    const day = Temporal.PlainDate.from("2026-11-27").subtract({
      days: Math.floor((runs - n) / 4),
    });
    return {
      on: `${day}T${10 + (n % 4) * 3}:00`,
      by: one("Ines", "Dora", "Bruno"),
      tank: one("North", "South"),
      push: one(0, 0, 1, 2),
      bottle: one("acorn", "cedar"),
      read: [37 + chance() * 2, 37 + chance() * 2],
      off: { 2: one(0, 0, -60) },
    };
  });
}

/** Questions to a log of thousands of runs that stand in memory, from the sentence to its answer. */
export async function benchLogSearch(runs = 5000, rounds = 20): Promise<LogSearch> {
  const commands = await loadCommands();
  const { bench, past } = seasonOf(outlines(runs), 8);
  const took: number[] = [];
  const by = new Map<string, number[]>();
  let record: BenchRecord = { ...newRecord("test", bench.zone), bench };
  for (let round = 0; round < rounds; round += 1) {
    for (const text of QUESTIONS) {
      const now = later(evening, round);
      const begin = performance.now();
      const after = turn(record, { text, who: "Ines" }, now, commands, past);
      const ms = performance.now() - begin;
      took.push(ms);
      by.set(text, [...(by.get(text) ?? []), ms]);
      if (after.reply.kind === "refusal") {
        throw new Error(`${text}: ${after.reply.title}`);
      }
      record = after.record;
    }
  }
  const [first = 0, ...rest] = took;
  const [slowest = { sentence: "", ms: 0 }] = [...by]
    .map(([sentence, times]) => ({ sentence, ms: percentile(times, 50) }))
    .sort((a, b) => b.ms - a.ms);
  return {
    runs,
    first,
    p50: percentile(rest, 50),
    p99: percentile(rest, 99),
    max: percentile(rest, 100),
    slowest,
  };
}
