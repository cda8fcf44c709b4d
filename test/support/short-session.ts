import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { type Instant, later } from "../../src/domain/units/quantity.ts";
import { type Reply, valuesOf } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import type { Store } from "../../src/store/store.ts";
import type { MemoryDisk } from "./memory-disk.ts";
import { evening } from "./runs.ts";

/**
 * An evening as short as one can be with bottles, rolls, a reminder, four baths, words that were
 * heard and words that were not. `@` lets that many seconds go by.
 */
const SCRIPT = `
use sheet saltmarsh demo
bottle developer 1 litre mixed yesterday
bottle blix 1 litre mixed today
add two rolls of 120 marked C-41 called harbour
remind me in 3 minutes to check the tap
start saltmarsh demo two rolls of 120 tank north
ready
@20
in
@60
temperature 37.8
keep
note the lid leaks
@120
out
@15
in
@30
poured 50 ml from Banjo
undo
@500
@30
out
@15
in
@120
out
yes
summary
mark roll 1 C-41
`
  .trim()
  .split("\n");

/** One thing that happens to the bench: something is said, or the clock has something to say. */
export type Step =
  | { readonly kind: "said"; readonly text: string; readonly at: Instant }
  | { readonly kind: "due"; readonly at: Instant };

export type Told = { readonly at: Instant; readonly reply: Reply };

const commands = await loadCommands();

const openRecords = (files: MemoryDisk): Promise<Store<BenchRecord>> =>
  openFileStore({
    directory: "/data",
    files,
    schema: recordSchema,
    limits: { bytes: 40_000, commits: 6 },
    lock: async () => ({ isLost: () => false, release: async () => undefined }),
  });

/** The bench as it stands on a disk. */
export async function keeperOn(
  disk: MemoryDisk,
): Promise<{ keeper: BenchKeeper; notices: readonly string[] }> {
  const store = await openRecords(disk);
  return BenchKeeper.open("home", { zone: "Europe/Lisbon" }, store, commands);
}

/**
 * Takes one step and gives all that was told. Rejects when the disk fails.
 *
 * @param tells gets each of it at the very moment at which it is out of the program's hands
 */
export async function take(
  keeper: BenchKeeper,
  step: Step,
  tells: (told: readonly Told[]) => void = () => undefined,
): Promise<readonly Told[]> {
  const told: Told[] = [];
  const tell = (replies: readonly Reply[]): void => {
    const more = replies.map((reply) => ({ at: step.at, reply }));
    told.push(...more);
    tells(more);
  };
  if (step.kind === "due") await keeper.tick(step.at, tell);
  else tell([await keeper.hear({ text: step.text, who: "you" }, step.at)]);
  return told;
}

export type Lived = {
  readonly steps: readonly Step[];
  /** What was told at each step. */
  readonly told: readonly (readonly Told[])[];
  /** The record before the first step and after each. */
  readonly records: readonly BenchRecord[];
};

/** The evening without any mishap: what all others are held against. `watch` sees it go by. */
export async function liveShortSession(
  disk: MemoryDisk,
  watch: { tells(told: readonly Told[]): void; done(): void },
): Promise<Lived> {
  const { keeper } = await keeperOn(disk);
  const steps: Step[] = [];
  const told: (readonly Told[])[] = [];
  const records = [keeper.record];
  const go = async (step: Step): Promise<void> => {
    steps.push(step);
    told.push(await take(keeper, step, watch.tells));
    watch.done();
    records.push(keeper.record);
  };
  let now = evening;
  for (const line of SCRIPT) {
    if (!line.startsWith("@")) {
      await go({ kind: "said", text: line, at: now });
      continue;
    }
    const to = later(now, Number(line.slice(1)));
    for (let due = keeper.nextDue(); due !== undefined && due <= to; due = keeper.nextDue()) {
      if (due > now) now = due;
      await go({ kind: "due", at: now });
    }
    now = to;
  }
  return { steps, told, records };
}

/** Which cue of which bath: the same however often, and however late, it is told. */
export const cueOf = ({ reply }: Told): string | undefined => {
  const { cue, tank, bath } = valuesOf(reply);
  return cue === undefined ? undefined : `${String(tank)} ${String(bath)} ${String(cue)}`;
};
