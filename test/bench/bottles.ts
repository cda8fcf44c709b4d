import { dailyLooks } from "../../src/commands/daily-looks.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import type { Bottle } from "../../src/domain/chemistry/bottle.ts";
import type { Roll } from "../../src/domain/film/roll.ts";
import { planDaily } from "../../src/domain/reminders/daily-message.ts";
import { instant, millilitres, units } from "../../src/domain/units/quantity.ts";
import { percentile } from "./percentile.ts";

export type BottleSpeed = {
  readonly bottles: number;
  readonly rolls: number;
  readonly runs: number;
  readonly turns: number;
  /** In ms, over all commands but the plan of an evening. */
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
  /** The command with the longest p99 of its own. */
  readonly slowest: { readonly command: string; readonly p99: number };
  /** Packing all the film that waits into an evening. */
  readonly plan: { readonly p50: number; readonly p99: number };
  readonly byCommand: readonly {
    readonly command: string;
    readonly p50: number;
    readonly p99: number;
  }[];
};

const BOTTLES = 200;
const ROLLS = 2000;
const RUNS = 500;
const ROUNDS = 200;
const WARM_UP = 10;
const PLANS = 20;

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

/** Half of them done, a fifth of the rest with a name. */
const roll = (index: number): Roll => ({
  id: `roll-${index}`,
  number: index + 1,
  format: (["135-36", "135-24", "120"] as const)[index % 3] ?? "120",
  ...(index % 4 === 3 ? {} : { marked: index % 5 === 4 ? ("E-6" as const) : ("C-41" as const) }),
  ...(index % 5 === 0 ? { name: name(index + BOTTLES) } : {}),
  push: index % 17 === 0 ? 1 : 0,
  important: index % 11 === 0,
  doubtful: index % 13 === 0,
  addedOn: "2026-11-02",
  ...(index % 2 === 0 ? { doneIn: `run-${index % RUNS}` } : {}),
});

/** A bench of a club: many bottles, much film, many runs moved to files of their own. */
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
      rolls: Object.fromEntries(
        Array.from({ length: ROLLS }, (_, index) => roll(index)).map((one) => [one.id, one]),
      ),
      tanks: {
        south: {
          name: "South",
          layouts: [
            [1, 2].map(() => ({ takes: ["135-36", "135-24"], rolls: 1, ml: millilitres(300) })),
            [{ takes: ["120"], rolls: 1, ml: millilitres(500) }],
          ],
        },
      },
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

const asked = (one: string, waiting: number): readonly string[] => [
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
  "rolls",
  `show roll ${waiting}`,
  "add two rolls of 120 marked C-41 called zeppelin",
  "undo",
  "add a roll of 120",
  `mark roll ${waiting} C-41 important`,
  `push roll ${waiting} one stop`,
  `roll ${waiting + 2} is E-6`,
  `remove roll ${waiting + 2}`,
  "undo",
];

const PLAN = "plan tonight until 22:00";

/**
 * Every bottle and film command on a big bench, again and again: the time of a whole turn, the
 * next daily message planned, all but the writing.
 */
export async function benchBottles(): Promise<BottleSpeed> {
  const commands = await loadCommands();
  let record = bigBench();
  const took = new Map<string, number[]>();
  const say = (text: string, command: string): number => {
    const start = performance.now();
    const after = turn(record, { text, who: "me" }, at, commands);
    const bench = planDaily(after.record.bench, at, dailyLooks);
    record = bench === after.record.bench ? after.record : { ...after.record, bench };
    const ms = performance.now() - start;
    if (after.reply.facts.reason === "not-understood") throw new Error(`not heard: ${text}`);
    const known = took.get(command);
    if (known === undefined) took.set(command, [ms]);
    else known.push(ms);
    return ms;
  };
  const times: number[] = [];
  const plans: number[] = [];
  for (let round = 0; round < ROUNDS + WARM_UP; round += 1) {
    if (round === WARM_UP) took.clear();
    const waiting = 2 + 4 * (round % 400);
    const patterns = asked("{bottle}", 0);
    for (const [index, text] of asked(name(4 + 2 * (round % 40)), waiting).entries()) {
      const ms = say(text, `${index} ${patterns[index] ?? ""}`);
      if (round >= WARM_UP) times.push(ms);
    }
  }
  for (let round = 0; round < PLANS; round += 1) plans.push(say(PLAN, PLAN));
  const byCommand = [...took]
    .filter(([command]) => command !== PLAN)
    .map(([command, ms]) => ({
      command: command.replace(/^\d+ /, ""),
      p50: percentile(ms, 50),
      p99: percentile(ms, 99),
    }));
  const slowest = byCommand.reduce((worst, one) => (one.p99 > worst.p99 ? one : worst));
  return {
    bottles: BOTTLES,
    rolls: ROLLS,
    runs: RUNS,
    turns: times.length,
    p50: percentile(times, 50),
    p99: percentile(times, 99),
    max: Math.max(...times),
    slowest: { command: slowest.command, p99: slowest.p99 },
    plan: { p50: percentile(plans, 50), p99: percentile(plans, 99) },
    byCommand,
  };
}
