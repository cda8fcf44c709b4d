import { once } from "node:events";
import type { Worker } from "node:worker_threads";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { createLookBack, type LookBack } from "../../src/conversation/look-back/look-back.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { later } from "../../src/domain/units/quantity.ts";
import { filesIn } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { archivedBench } from "../support/archived-bench.ts";
import { withFolder } from "../support/child.ts";
import { evening } from "../support/runs.ts";

const commands = await loadCommands();

/** More than are read where cues are given. */
const LONG = 251;

type Household = {
  readonly keeper: BenchKeeper;
  /** How many turns were taken elsewhere. */
  readonly asked: () => number;
  say(text: string, seconds: number): Promise<Reply>;
};

/** A bench of so many archived runs, with a thread that looks back over them or without one. */
const withBench = (
  runs: number,
  lookBack: LookBack | undefined,
  use: (household: Household) => Promise<void>,
): Promise<void> =>
  withFolder(async (data) => {
    const store = await openFileStore<BenchRecord>({ directory: data, schema: recordSchema });
    await store.load("home");
    await store.commit("home", undefined, await archivedBench(data, "home", runs));
    let turns = 0;
    const counted: LookBack | undefined =
      lookBack === undefined
        ? undefined
        : {
            ...lookBack,
            turn(...asked) {
              turns += 1;
              return lookBack.turn(...asked);
            },
          };
    const place = { zone: "Europe/Lisbon" };
    const files = filesIn(data);
    const { keeper } = await BenchKeeper.open("home", place, store, commands, files, counted);
    try {
      await use({
        keeper,
        asked: () => turns,
        say: (text, seconds) =>
          keeper.hear({ text, who: "Ines", standing: "owner" }, later(evening, seconds)),
      });
    } finally {
      await lookBack?.close();
      await keeper.idle();
      await store.close();
    }
  });

const SENTENCES = [
  "all runs",
  "runs in October",
  "how often did the wash run short",
  "what temperature do I usually end at",
  "last time I pushed two stops",
  "add two rolls of 120 marked C-41 called harbour",
  "show run 3",
  "share run 3",
  "yes",
  "start developer tank north",
  "in",
  "all runs with Ines",
  "run 2 came out thin",
  "yes",
  "forget Dora",
  "runs with Nobody",
  "undo",
  "runs in",
  "how often",
];

test("a turn taken by the thread that looks back is the turn that is taken here", async () => {
  const lived: { replies: readonly Reply[]; record: BenchRecord }[] = [];
  for (const lookBack of [createLookBack(), undefined]) {
    await withBench(LONG, lookBack, async ({ keeper, asked, say }) => {
      const replies: Reply[] = [];
      for (const [n, text] of SENTENCES.entries()) replies.push(await say(text, 20 * n));
      expect(asked() >= 8).toBe(lookBack !== undefined);
      lived.push({ replies, record: keeper.record });
    });
  }
  const [far, near] = lived;
  expect(far?.replies).toEqual(near?.replies);
  expect(far?.record).toEqual(near?.record);
  expect(near?.replies[0]?.figures.runs).toBeDefined();
});

test("a short past is read where it is asked for", () =>
  withBench(LONG - 1, createLookBack(), async ({ asked, say }) => {
    expect((await say("all runs", 0)).facts.of).toBe(LONG - 1);
    expect(asked()).toBe(0);
  }));

test("what changes while the thread looks back is not lost, and cues are given meanwhile", () =>
  withBench(LONG, createLookBack(), async ({ keeper, asked, say }) => {
    await say("start developer tank north", 0);
    const before = keeper.record;
    const answered = say("all runs", 1);
    const told: string[] = [];
    await keeper.tick(later(evening, 40), (replies) => {
      told.push(...replies.map(({ kind }) => kind));
    });
    const noted = await say("note the lid leaks", 41);
    expect(told).toContain("cue");
    expect(noted.kind).toBe("reply");
    expect((await answered).facts.of).toBe(LONG);
    expect(asked()).toBeGreaterThan(1);
    expect(JSON.stringify(keeper.record.bench)).toContain("the lid leaks");
    expect(keeper.record.lastCue).not.toEqual(before.lastCue);
  }));

test("runs that are archived meanwhile are in the next answer", () =>
  withBench(LONG, createLookBack(), async ({ say }) => {
    expect((await say("all runs", 0)).facts.of).toBe(LONG);
    // Nine evenings later the first of them is in a file as well.
    for (let n = 0; n < 10; n += 1) {
      const day = 86_400 * (n + 1);
      await say("start developer tank north", day);
      await say("in", day + 30);
      await say("out", day + 225);
      await say("stop tank north", day + 400);
      await say("yes", day + 401);
    }
    const { facts } = await say("all runs", 86_400 * 12);
    expect(facts.of).toBe(LONG + 10);
  }));

test("after ten minutes without a question it is let go of, and read again with the next", async () => {
  const lookBack = createLookBack();
  await withBench(LONG, lookBack, async ({ keeper, say }) => {
    const first = await say("all runs", 0);
    await keeper.look(later(evening, 601), () => undefined);
    const again = await say("all runs", 602);
    expect(again.title).toBe(first.title);
    expect(again.facts).toEqual(first.facts);
  });
});

test("a thread that is ended fails its question, and the next one begins another", async () => {
  const lookBack = createLookBack();
  await withBench(LONG, lookBack, async ({ say }) => {
    const sent = new Promise<void>((done) => {
      process.once("worker", (worker) => {
        const post = worker.postMessage.bind(worker);
        worker.postMessage = (asked) => {
          post(asked);
          if (asked.kind === "turn") done();
        };
      });
    });
    const failed = expect(say("all runs", 0)).rejects.toThrow("stopping");
    // Asked, and nothing can have come back in the same turn of the loop.
    await sent;
    await lookBack.close();
    await failed;
    expect((await say("all runs", 1)).facts.of).toBe(LONG);
  });
});

test("once no bench is asked about any more, the thread goes with all it held", async () => {
  const begun: Worker[] = [];
  const note = (worker: Worker): void => void begun.push(worker);
  process.on("worker", note);
  try {
    await withBench(LONG, createLookBack(), async ({ keeper, say }) => {
      await say("all runs", 0);
      expect(begun).toHaveLength(1);
      const ended = begun[0] === undefined ? undefined : once(begun[0], "exit");
      keeper.release();
      await ended;
      // And another is begun when it is wanted.
      expect((await say("all runs", 1)).facts.of).toBe(LONG);
      expect(begun).toHaveLength(2);
    });
  } finally {
    process.off("worker", note);
  }
});
