import { isDeepStrictEqual } from "node:util";
import type { Adapter } from "lowdb";
import type { z } from "zod";
import { type Change, diff } from "../domain/changes.ts";
import { keepAside } from "./aside.ts";
import { BenchLog, type Entry, type Limits, type Standing } from "./bench-log.ts";
import { misfit } from "./check-fit.ts";
import { explainFaults } from "./explain-faults.ts";
import type { Folder } from "./folder.ts";
import { type Migrated, migrate as migrateRecord } from "./migrations/migrate.ts";
import { checkPlain } from "./plain.ts";
import { type Recovered, recover } from "./recover.ts";
import { sealSnapshot } from "./seal.ts";
import { diskError, StoreError } from "./store-error.ts";

export type AdapterOptions<T> = {
  readonly schema: z.ZodType<T>;
  readonly limits?: Limits;
  readonly migrate?: (record: unknown) => Migrated;
};

type Waiting = Entry & {
  readonly durable: boolean;
  readonly done: PromiseWithResolvers<void>;
};

const LIMITS: Limits = { bytes: 256 * 1024, commits: 2000 };

/**
 * lowdb's way to the files of one bench. Writing means: what changed since the last write goes to
 * the end of the journal and is safe on disk before the promise resolves. Writes that come in
 * while one is under way share the next sync.
 */
export class JournalAdapter<T> implements Adapter<T | null> {
  readonly #folder: Folder;
  readonly #options: AdapterOptions<T>;
  #log: BenchLog | undefined;
  /** The value on disk, and the value once everything waiting is on disk. */
  #held: T | undefined;
  #latest: T | undefined;
  #waiting: Waiting[] = [];
  #work: Promise<void> | undefined;
  #notices: readonly string[] = [];

  constructor(folder: Folder, options: AdapterOptions<T>) {
    this.#folder = folder;
    this.#options = options;
  }

  get notices(): readonly string[] {
    return this.#notices;
  }

  /** What the next write is compared with. */
  get latest(): T | undefined {
    return this.#latest;
  }

  async read(): Promise<T | null> {
    const { highest, bench } = await recover(this.#folder);
    const value = bench === undefined ? undefined : await this.#open(bench);
    this.#log = new BenchLog(
      this.#folder,
      {
        generation: bench?.generation ?? 0,
        highest,
        sequence: bench?.sequence ?? 0,
        journalLength: value?.asStored ? bench?.journalLength : undefined,
      },
      this.#options.limits ?? LIMITS,
    );
    this.#held = value?.value;
    this.#latest = value?.value;
    return value?.value ?? null;
  }

  /** Takes over what somebody else has just put into this folder, and is safe there. */
  adopt(value: T, standing: Standing): void {
    this.#log = new BenchLog(this.#folder, standing, this.#options.limits ?? LIMITS);
    this.#held = value;
    this.#latest = value;
  }

  /** Where the files stand, once they have been read or written. */
  get standing(): Standing {
    if (this.#log === undefined) throw new TypeError("A bench is read before it is asked about.");
    return this.#log.standing;
  }

  async write(data: T | null): Promise<void> {
    return this.writeAs(data, true);
  }

  /** Like `write`; with `durable` false it does not wait for the disk. */
  async writeAs(data: T | null, durable: boolean): Promise<void> {
    if (data === null) throw new TypeError("A bench is never emptied.");
    const changes = diff(this.#latest, data);
    for (const change of changes) checkPlain(change);
    this.#checkFit(data, changes);
    const done = Promise.withResolvers<void>();
    this.#waiting.push({ previous: this.#latest, next: data, changes, durable, done });
    this.#latest = data;
    this.#work ??= this.#workOff();
    return done.promise;
  }

  /** Resolves once nothing is being written, a generation that was begun after the last commit too. */
  async settled(): Promise<void> {
    await this.#work;
  }

  async close(): Promise<void> {
    await this.settled();
    try {
      await this.#log?.close();
    } catch (error) {
      throw diskError(error, "make the last changes safe");
    }
  }

  /** A record that could not be read back must not get to the disk: a bug is then no lost bench. */
  #checkFit(data: T, changes: readonly Change[]): void {
    const wrong = misfit(this.#options.schema, data, changes);
    if (wrong === undefined) return;
    throw new StoreError(
      "unfit",
      `That change would have spoiled the stored bench (at "${wrong.place}"), so I did not keep it. This is a fault of mine.`,
      wrong.error,
    );
  }

  async #workOff(): Promise<void> {
    while (this.#waiting.length > 0) {
      const batch = this.#waiting;
      this.#waiting = [];
      try {
        await this.#log?.append(
          batch,
          batch.some(({ durable }) => durable),
        );
      } catch (error) {
        this.#fail(batch, diskError(error, "save that change"));
        continue;
      }
      this.#held = batch.at(-1)?.next as T;
      for (const { done } of batch) done.resolve();
      if (this.#log?.isDue()) await this.#log.renew(this.#held);
    }
    this.#work = undefined;
  }

  /** Whatever waits was built on what failed. */
  #fail(batch: readonly Waiting[], error: StoreError): void {
    const waiting = [...batch, ...this.#waiting];
    this.#waiting = [];
    this.#latest = this.#held;
    for (const { done } of waiting) done.reject(error);
  }

  async #open(bench: Recovered): Promise<{ value: T; asStored: boolean }> {
    const notices = await explainFaults(this.#folder, bench);
    const { record, from, to } = this.#migrate(bench.record);
    const parsed = this.#options.schema.safeParse(record);
    if (!parsed.success) {
      const place = parsed.error.issues[0]?.path.join(".") ?? "";
      throw this.#unreadable(`At "${place}" it does not hold what a bench must hold.`);
    }
    if (from !== to) {
      const { sequence } = bench;
      const old = Buffer.from(sealSnapshot({ sequence, record: bench.record }));
      await keepAside(this.#folder, `version-${from}.json`, old);
    }
    this.#notices = notices;
    return { value: parsed.data, asStored: isDeepStrictEqual(parsed.data, bench.record) };
  }

  #migrate(record: unknown): Migrated {
    try {
      return (this.#options.migrate ?? migrateRecord)(record);
    } catch (error) {
      if (error instanceof StoreError) throw this.#unreadable(error.message, error.kind);
      throw error;
    }
  }

  #unreadable(reason: string, kind: "unreadable" | StoreError["kind"] = "unreadable"): StoreError {
    return new StoreError(
      kind,
      `I cannot use the bench in ${this.#folder.shown}. ${reason} Nothing was changed.`,
    );
  }
}
