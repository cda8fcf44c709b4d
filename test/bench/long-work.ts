import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import type { Command } from "../../src/commands/define-command.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { createBenches } from "../../src/conversation/benches.ts";
import { createLookBack } from "../../src/conversation/look-back/look-back.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { later } from "../../src/domain/units/quantity.ts";
import { filesIn } from "../../src/export/files.ts";
import { toPng } from "../../src/picture/png.ts";
import { sessionPicture } from "../../src/picture/session-picture.ts";
import { systemClock } from "../../src/platform/clock.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import { archivedBench } from "../support/archived-bench.ts";
import { benchSession } from "../support/bench-session.ts";
import { withFolder } from "../support/child.ts";
import { collector } from "../support/collector.ts";
import { evening } from "../support/runs.ts";
import { type Stall, watched } from "./stalls.ts";

export type LongWork = {
  readonly what: string;
  /** How long the thread of the cues was held at most: the first time, and every time after. */
  readonly first: Stall;
  readonly after: Stall;
  /** The same of doing nothing, just before each. */
  readonly idle: Stall;
};

const worst = (all: readonly Stall[]): Stall => ({
  turn: Math.max(...all.map(({ turn }) => turn)),
  delay: Math.max(...all.map(({ delay }) => delay)),
});

async function measure(
  what: string,
  work: (round: number) => Promise<unknown>,
  rounds = 4,
): Promise<LongWork> {
  const idle: Stall[] = [];
  const busy: Stall[] = [];
  for (let round = 0; round < rounds; round += 1) {
    idle.push((await watched(() => wait(200))).stall);
    busy.push((await watched(() => work(round))).stall);
  }
  const [first = { turn: 0, delay: 0 }, ...after] = busy;
  return { what, first, after: after.length === 0 ? first : worst(after), idle: worst(idle) };
}

const SEARCHES = [
  "all runs",
  "how often did the wash run short",
  "what temperature do I usually end at",
  "last time I pushed two stops",
  "runs in October",
  "season",
];

const BENCHES = 300;

/** The look of the minute over many benches of one process, each with a run and a reminder. */
async function measureLooks(commands: readonly Command[]): Promise<LongWork> {
  let look = (): void => undefined;
  const housekeep = (start: () => void) => {
    look = start;
    return () => undefined;
  };
  const benches = createBenches({ clock: systemClock, housekeep });
  const kept = createMemoryStore<BenchRecord>();
  for (let n = 0; n < BENCHES; n += 1) {
    const id = `bench-${n}`;
    const { keeper } = await BenchKeeper.open(id, { zone: "Europe/Lisbon" }, kept, commands);
    const bell = benches.join(id, { keeper, tell: () => undefined, onFault: () => undefined });
    for (const text of ["remind me tomorrow to order fixer", "start developer tank north"]) {
      await bell.hear(text, "you");
    }
  }
  const measured = await measure(`the look of the minute over ${BENCHES} benches`, async () => {
    look();
    await wait(600);
  });
  benches.stop();
  return measured;
}

/** All that takes long, each with the time it holds up a cue. */
export const benchLongWork = (runs = 5000, restored = 500): Promise<readonly LongWork[]> =>
  withFolder(async (data) => {
    const all: LongWork[] = [];
    const collect = collector();
    const { session, words } = benchSession();
    const shapes = ["wide", "phone"] as const;
    collect();
    all.push(
      await measure(
        "drawing pictures",
        (n) => toPng(sessionPicture(session, words, shapes[n % 2] ?? "wide")),
        8,
      ),
    );
    const commands = await loadCommands();
    const limits = { bytes: 1, commits: 1 };
    const store = await openFileStore<BenchRecord>({ directory: data, schema: recordSchema });
    const lookBack = createLookBack();
    const open = async (id: string, count: number) => {
      await store.load(id);
      await store.commit(id, undefined, await archivedBench(data, id, count));
      const files = filesIn(join(data, "own", id));
      const { keeper } = await BenchKeeper.open(
        id,
        { zone: "UTC" },
        store,
        commands,
        files,
        lookBack,
      );
      return (text: string, seconds: number) =>
        keeper.hear({ text, who: "you", standing: "owner" }, later(evening, seconds));
    };
    const large = await open("large", runs);
    // The first sentence of a process has a row of its own, and what was left behind by making all
    // these runs is no part of reading them.
    await large("left", 0);
    collect();
    all.push(await measure(`reading ${runs} runs`, (n) => large("all runs", n), 1));
    for (const text of SEARCHES) {
      all.push(await measure(`${runs} runs: ${text}`, (n) => large(text, 10 + n)));
    }
    all.push(await measure(`exporting ${runs} runs`, (n) => large("export everything", 60 * n)));
    const small = await open("small", restored);
    collect();
    const made = await small("export everything", 0);
    const name =
      String(made.facts.file ?? "")
        .split("/")
        .at(-1) ?? "";
    all.push(
      await measure(
        `restoring ${restored} runs`,
        async (n) => {
          await small(`restore from ${name}`, 100 + n);
          await small("yes", 100 + n);
        },
        3,
      ),
    );
    await lookBack.close();
    await store.close();
    const compacting = await openFileStore<BenchRecord>({
      directory: join(data, "compacting"),
      schema: recordSchema,
      limits,
    });
    await compacting.load("home");
    let record = await archivedBench(join(data, "compacting"), "home", restored);
    await compacting.commit("home", undefined, record);
    collect();
    all.push(
      await measure(
        `compacting a journal, ${restored} past runs`,
        async (n) => {
          const notes = [...record.bench.notes, { at: evening, by: "you", text: `note ${n}` }];
          const next = { ...record, bench: { ...record.bench, notes } };
          await compacting.commit("home", record, next);
          record = next;
          // The new generation is begun after the answer.
          await wait(100);
        },
        8,
      ),
    );
    await compacting.close();
    all.push(await measureLooks(commands));
    return all;
  });
