import { dailyLooks } from "../commands/daily-looks.ts";
import type { Command } from "../commands/define-command.ts";
import { planDaily } from "../domain/reminders/daily-message.ts";
import { moveZone } from "../domain/reminders/move-zone.ts";
import { archiveOldRuns } from "../domain/session/archive.ts";
import type { Bench } from "../domain/session/bench.ts";
import { decide, nextCue, nextDue } from "../domain/session/decide.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Reply } from "../reply/reply.ts";
import type { Store } from "../store/store.ts";
import { announce } from "./announce.ts";
import { announceReminders } from "./announce-reminders.ts";
import { momentOf } from "./moment.ts";
import { type BenchRecord, newRecord } from "./record.ts";
import { settleByClock } from "./settle-runs.ts";
import { type Message, turn } from "./turn.ts";
import { undoAfter } from "./undo-after.ts";

/**
 * Tells people something: returns once it is out of the program's hands. `bench` is the bench as it
 * is after what is told.
 */
export type Tell = (replies: readonly Reply[], bench: Bench) => void | Promise<void>;

/** Where a bench stands. `moved`: a bench that is already there takes this zone as well. */
export type Place = { readonly zone: string; readonly moved?: boolean | undefined };

/**
 * One bench in memory, in step with its store. What a message changes is durable before its reply
 * is given; a cue is told first and marked as told after, so that a crash between the two repeats
 * it, late, rather than losing it.
 */
export class BenchKeeper {
  readonly #id: string;
  readonly #store: Store<BenchRecord>;
  readonly #commands: readonly Command[];
  #record: BenchRecord;
  /** Turns and ticks are taken one after the other. */
  #queue: Promise<unknown> = Promise.resolve();

  private constructor(
    id: string,
    store: Store<BenchRecord>,
    commands: readonly Command[],
    record: BenchRecord,
  ) {
    this.#id = id;
    this.#store = store;
    this.#commands = commands;
    this.#record = record;
  }

  /** Opens a bench, or makes it at `place`. `notices` are sentences about its files. */
  static async open(
    id: string,
    { zone, moved = false }: Place,
    store: Store<BenchRecord>,
    commands: readonly Command[],
  ): Promise<{ keeper: BenchKeeper; notices: readonly string[] }> {
    const { value, notices } = await store.load(id);
    const record =
      value === undefined
        ? newRecord(id, zone)
        : moved && value.bench.zone !== zone
          ? { ...value, bench: moveZone(value.bench, zone) }
          : value;
    if (record !== value) await store.commit(id, value, record);
    return { keeper: new BenchKeeper(id, store, commands, record), notices };
  }

  get record(): BenchRecord {
    return this.#record;
  }

  /** When the clock next has something to say here. */
  nextDue(): Instant | undefined {
    return nextDue(this.#record.bench);
  }

  /** When a run is next moved on by the clock. */
  nextCue(): Instant | undefined {
    return nextCue(this.#record.bench);
  }

  /** A message and its answer; the change is durable when this resolves. */
  hear(message: Message, now: Instant): Promise<Reply> {
    return this.#inTurn(async () => {
      const { record, reply } = turn(this.#record, message, now, this.#commands);
      await this.#commit(planned(record, now), record.bench !== this.#record.bench);
      await this.#archive();
      return reply;
    });
  }

  /** Tells what has come due by `now`, then marks it as told. */
  tick(now: Instant, tell: Tell): Promise<void> {
    return this.#inTurn(async () => {
      const due = this.nextDue();
      if (due === undefined || due > now) return;
      const before = this.#record;
      const decided = decide(before.bench, now, dailyLooks);
      const { happenings, given = [] } = decided;
      // What the clock did to a run cannot be taken back past.
      const moved = happenings.some(({ event }) => event.kind !== "cues");
      const { bench, replies: apart } = moved
        ? settleByClock(decided.bench, now)
        : { bench: decided.bench, replies: [] };
      const replies = [
        ...announce(bench, happenings, now),
        ...apart,
        ...announceReminders(bench, given, now),
      ].map((reply) => ({ ...reply, clock: momentOf(bench, now) }));
      await tell(replies, bench);
      const said = replies.at(-1);
      const after = {
        ...before,
        bench,
        undo: moved ? [] : undoAfter(before.undo, given),
        lastCue: said === undefined ? before.lastCue : { reply: said, at: now },
      };
      await this.#commit(planned(after, now), moved || given.length > 0);
      await this.#archive();
    });
  }

  /**
   * The periodic look: plans the daily message again, since the day or the program may have moved
   * on, and then does what `tick` does.
   */
  async look(now: Instant, tell: Tell): Promise<void> {
    await this.#inTurn(() => this.#commit(planned(this.#record, now), false));
    await this.tick(now, tell);
  }

  /** Resolves once what was begun is done. */
  async idle(): Promise<void> {
    await this.#queue;
  }

  async #commit(record: BenchRecord, durable: boolean): Promise<void> {
    if (record === this.#record) return;
    await this.#store.commit(this.#id, this.#record, record, { durable });
    this.#record = record;
  }

  /** Runs that ended long ago go to files of their own before they leave the bench. */
  async #archive(): Promise<void> {
    const { bench, runs } = archiveOldRuns(this.#record.bench);
    if (bench === this.#record.bench) return;
    for (const run of runs) await this.#store.archive(this.#id, run.id, run);
    await this.#commit({ ...this.#record, bench, undo: [] }, true);
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const result = this.#queue.then(work);
    this.#queue = result.catch(() => undefined);
    return result;
  }
}

/** The record with the next daily message planned. */
function planned(record: BenchRecord, now: Instant): BenchRecord {
  const bench = planDaily(record.bench, now, dailyLooks);
  return bench === record.bench ? record : { ...record, bench };
}
