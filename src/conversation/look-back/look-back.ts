import { setImmediate as nextTurn } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Run } from "../../domain/session/run.ts";
import { type Instant, secondsBetween } from "../../domain/units/quantity.ts";
import { inSlices } from "../in-slices.ts";
import { type BenchRecord, newRecord } from "../record.ts";
import type { Message } from "../turn.ts";
import type { Asked, FarTurn, Told } from "./words.ts";

/** Turns that look back over a long past, taken away from the thread that gives the cues. */
export type LookBack = {
  /**
   * What a message does to the record it is given; the record itself stays as it is. The bench's
   * archived runs are read from `archive` at the first question.
   *
   * @throws LetGo, or what went wrong in the thread
   */
  turn(record: BenchRecord, archive: string, message: Message, now: Instant): Promise<FarTurn>;
  /** These runs have left the bench for files. */
  archived(bench: string, runs: readonly Run[]): void;
  /** The files are no longer what they were. */
  drop(bench: string): void;
  /** What nobody has asked for in a while is not held in memory. */
  letGo(bench: string, now: Instant): void;
  close(): Promise<void>;
};

/** The files of the bench have become others while it was being asked about. */
export class LetGo extends Error {}

/** Let go of when nobody has asked for so long, s. */
const KEPT = 600;

/** What the thread has been told of a bench. */
type Known = { record: BenchRecord; asked: Instant; telling: Promise<unknown> };

type Waiting = {
  readonly resolve: (turn: FarTurn) => void;
  readonly reject: (fault: unknown) => void;
};

/**
 * One thread for all benches of a process, begun with the first question and ended when no bench is
 * asked about any more. Thousands of runs are then not among the values of the thread that gives
 * the cues: to tidy up among them took it twenty ms at a time.
 */
export function createLookBack(): LookBack {
  let thread: Worker | undefined;
  const known = new Map<string, Known>();
  const waiting = new Map<number, Waiting>();
  let tickets = 0;

  const end = async (fault: unknown): Promise<void> => {
    const ended = thread;
    thread = undefined;
    known.clear();
    for (const { reject } of waiting.values()) reject(fault);
    waiting.clear();
    await ended?.terminate();
  };

  /** Nothing of a bench nobody asks about is left in memory: the thread goes with the last of them. */
  const endIfIdle = (): void => {
    if (thread !== undefined && known.size === 0 && waiting.size === 0) void end(undefined);
  };

  const begin = (): Worker => {
    const begun = new Worker(fileURLToPath(new URL("./thread.ts", import.meta.url)), {
      execArgv: ["--import", new URL("../../platform/keep-compiled.js", import.meta.url).href],
    });
    // The program may end while it is there.
    begun.unref();
    begun.on("message", (told: Told) => {
      const asker = waiting.get(told.ticket);
      waiting.delete(told.ticket);
      if (waiting.size === 0) begun.unref();
      if ("turn" in told) asker?.resolve(told.turn);
      else asker?.reject(told.fault);
      if (thread === begun) endIfIdle();
    });
    begun.on("error", (fault) => {
      if (thread === begun) void end(fault);
    });
    begun.on("exit", (code) => {
      if (thread === begun) void end(new Error(`looking back ended with ${code}`));
    });
    return begun;
  };

  const send = (asked: Asked): void => {
    thread ??= begin();
    thread.postMessage(asked);
  };

  /** Tells what has changed since the last time, a little at a time: others have their turn. */
  const tell = async (held: Known, record: BenchRecord): Promise<void> => {
    const bench = record.bench.id;
    for (const changes of inSlices(held.record, record)) {
      if (known.get(bench) !== held) throw new LetGo("the bench was let go of meanwhile");
      send({ kind: "changes", bench, changes });
      await nextTurn();
    }
    held.record = record;
  };

  const drop = (bench: string): void => {
    if (!known.delete(bench)) return;
    if (thread !== undefined) send({ kind: "drop", bench });
    endIfIdle();
  };

  return {
    async turn(record, archive, message, now) {
      // To begin a thread takes some ms, and so did hearing what is asked.
      await nextTurn();
      const { id, zone } = record.bench;
      let held = known.get(id);
      if (held === undefined) {
        held = { record: newRecord(id, zone), asked: now, telling: Promise.resolve() };
        known.set(id, held);
        send({ kind: "open", bench: id, zone, archive });
      }
      held.asked = now;
      const one = held;
      const { promise, resolve, reject } = Promise.withResolvers<FarTurn>();
      // One after the other: what is told is what changed since the one before.
      const telling = one.telling.then(async () => {
        await tell(one, record);
        if (known.get(id) !== one) throw new LetGo("the bench was let go of meanwhile");
        send({ kind: "turn", bench: id, message, now, ticket: tickets + 1 });
        tickets += 1;
        waiting.set(tickets, { resolve, reject });
        thread?.ref();
      });
      one.telling = telling.catch(() => {
        // What it was told of by then is not known: the next question begins anew.
        if (known.get(id) === one) drop(id);
      });
      await telling;
      return promise;
    },
    archived(bench, runs) {
      if (known.has(bench)) send({ kind: "archived", bench, runs });
    },
    drop,
    letGo(bench, now) {
      const held = known.get(bench);
      if (held === undefined || secondsBetween(held.asked, now) <= KEPT) return;
      drop(bench);
    },
    close: () => end(new Error("the program is stopping")),
  };
}
