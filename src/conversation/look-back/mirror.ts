import type { Command } from "../../commands/define-command.ts";
import { apply, diff } from "../../domain/changes.ts";
import { noPast, type Past, withArchived } from "../../domain/session/past.ts";
import { type BenchRecord, newRecord } from "../record.ts";
import { turn } from "../turn.ts";
import type { Asked, FarTurn } from "./words.ts";

type Bench = {
  record: BenchRecord;
  past: Past;
  /** Begun with the first question. */
  reading: Promise<void> | undefined;
  /** Where its archived runs lie. */
  readonly archive: string;
};

type Kind<K extends Asked["kind"]> = Extract<Asked, { readonly kind: K }>;

/** Reads the archived runs of a bench from a folder. */
export type ReadPast = (archive: string, record: BenchRecord) => Promise<Past>;

/**
 * Benches as another thread holds them, each with its whole past: what that thread tells is taken
 * in order, and turns are answered from it. Nothing is ever changed here by a turn itself.
 */
export class Mirror {
  readonly #commands: readonly Command[];
  readonly #read: ReadPast;
  readonly #benches = new Map<string, Bench>();

  constructor(commands: readonly Command[], read: ReadPast) {
    this.#commands = commands;
    this.#read = read;
  }

  /** Takes what needs no answer. */
  take(asked: Exclude<Asked, Kind<"turn">>): void {
    const { bench: id } = asked;
    if (asked.kind === "open") {
      const record = newRecord(id, asked.zone);
      this.#benches.set(id, { record, past: noPast, reading: undefined, archive: asked.archive });
      return;
    }
    if (asked.kind === "drop") {
      this.#benches.delete(id);
      return;
    }
    const bench = this.#bench(id);
    if (asked.kind === "changes") bench.record = apply(bench.record, asked.changes);
    else bench.past = withArchived(bench.past, asked.runs);
  }

  /** A message's turn on the bench as it is now; its past is read before the first. */
  async turn({ bench: id, message, now }: Kind<"turn">): Promise<FarTurn> {
    const bench = this.#bench(id);
    const { record } = bench;
    bench.reading ??= this.#readInto(bench).catch((fault: unknown) => {
      // The next question tries again.
      bench.reading = undefined;
      throw fault;
    });
    await bench.reading;
    const taken = turn(record, message, now, this.#commands, bench.past, "unread");
    if (taken.lacks !== undefined) throw new Error(`a turn that looks back lacks ${taken.lacks}`);
    const { reply, work } = taken;
    return { reply, work, changes: diff(record, taken.record) };
  }

  async #readInto(bench: Bench): Promise<void> {
    const read = await this.#read(bench.archive, bench.record);
    // What was archived while it went on is newer than what was read.
    bench.past = withArchived(read, bench.past.runs);
  }

  #bench(id: string): Bench {
    const bench = this.#benches.get(id);
    if (bench === undefined) throw new Error("a bench is opened before it is asked");
    return bench;
  }
}
