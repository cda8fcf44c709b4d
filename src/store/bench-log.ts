import { join } from "node:path";
import type { Change } from "../domain/changes.ts";
import type { OpenFile } from "../platform/file-system.ts";
import { draft, dropDraft, ensureFolder, type Folder, publish, writeAll } from "./folder.ts";
import { generationOf, journalName, snapshotName } from "./generations.ts";
import { sealLine, sealSnapshot } from "./seal.ts";

/** A journal this long, in bytes or in commits, makes the next generation due. */
export type Limits = { readonly bytes: number; readonly commits: number };

/** One commit to write: the record before and after it, and what lies between. */
export type Entry = {
  readonly previous: unknown;
  readonly next: unknown;
  readonly changes: readonly Change[];
};

/** Where the files stand; `journalLength` undefined asks for a new generation before writing. */
export type Standing = {
  readonly generation: number;
  readonly highest: number;
  readonly sequence: number;
  readonly journalLength: number | undefined;
};

type Journal = {
  readonly file: OpenFile;
  length: number;
  unsynced: boolean;
  /** The next line must hold the whole record, since it does not follow the journal before. */
  apart: boolean;
  /** Grown by this much since a new generation was last begun or tried. */
  grown: { bytes: number; commits: number };
};

const startJournal = (file: OpenFile, length: number, apart: boolean): Journal => ({
  file,
  length,
  unsynced: false,
  apart,
  grown: { bytes: length, commits: 0 },
});

/**
 * The files of one bench, as far as writing goes. Calls must not overlap.
 *
 * After a write that failed for want of space the journal is cut back to what was good. After any
 * other failure the journal is not trusted again, since a failed sync leaves open what is on disk:
 * the next commit begins a new generation, and is written whole, so that it does not lean on the
 * files before it.
 */
export class BenchLog {
  readonly #folder: Folder;
  readonly #limits: Limits;
  #generation: number;
  #highest: number;
  #sequence: number;
  #resumeAt: number | undefined;
  #journal: Journal | undefined;

  constructor(folder: Folder, standing: Standing, limits: Limits) {
    this.#folder = folder;
    this.#limits = limits;
    this.#generation = standing.generation;
    this.#highest = standing.highest;
    this.#sequence = standing.sequence;
    this.#resumeAt = standing.journalLength;
  }

  get standing(): Standing {
    return {
      generation: this.#generation,
      highest: this.#highest,
      sequence: this.#sequence,
      journalLength: this.#journal?.length ?? this.#resumeAt,
    };
  }

  /** Writes commits in order; resolves when they are in the journal, and safe if `durable`. */
  async append(entries: readonly Entry[], durable: boolean): Promise<void> {
    const [first] = entries;
    if (first === undefined) return;
    const journal =
      this.#journal ??
      (await this.#resume()) ??
      (await this.#begin(this.#sequence, first.previous ?? first.next, true));
    const whole: Change = { kind: "set", path: [], value: first.next };
    const lines = entries.map(({ changes }, index) =>
      sealLine({
        sequence: this.#sequence + index + 1,
        changes: journal.apart && index === 0 ? [whole] : changes,
      }),
    );
    await this.#write(journal, Buffer.from(lines.join("")), durable);
    journal.apart = false;
    journal.grown.commits += entries.length;
    this.#sequence += entries.length;
  }

  /** True when the journal has grown past its limits. */
  isDue(): boolean {
    const grown = this.#journal?.grown;
    return (
      grown !== undefined &&
      (grown.bytes >= this.#limits.bytes || grown.commits >= this.#limits.commits)
    );
  }

  /**
   * Begins the next generation from `record`, which all commits so far lead to. A failure costs
   * nothing and is not reported: the journal goes on, or the next commit tries again.
   */
  async renew(record: unknown): Promise<void> {
    const journal = this.#journal;
    if (journal === undefined) return;
    try {
      if (journal.unsynced) await journal.file.sync();
      journal.unsynced = false;
    } catch {
      return this.#distrust();
    }
    journal.grown = { bytes: 0, commits: 0 };
    await this.#begin(this.#sequence, record, false).catch(() => undefined);
  }

  async close(): Promise<void> {
    const journal = this.#journal;
    this.#journal = undefined;
    this.#resumeAt = undefined;
    if (journal === undefined) return;
    try {
      if (journal.unsynced) await journal.file.sync();
    } finally {
      await journal.file.close();
    }
  }

  async #resume(): Promise<Journal | undefined> {
    if (this.#resumeAt === undefined) return undefined;
    const file = await this.#folder.files.append(this.#path(journalName(this.#generation)));
    this.#journal = startJournal(file, this.#resumeAt, false);
    this.#resumeAt = undefined;
    return this.#journal;
  }

  async #write(journal: Journal, bytes: Uint8Array, durable: boolean): Promise<void> {
    try {
      await writeAll(journal.file, bytes);
    } catch (error) {
      await this.#cutBack(journal, error);
      throw error;
    }
    journal.unsynced = true;
    if (durable) {
      try {
        await journal.file.sync();
      } catch (error) {
        await this.#distrust();
        throw error;
      }
      journal.unsynced = false;
    }
    journal.length += bytes.length;
    journal.grown.bytes += bytes.length;
  }

  async #cutBack(journal: Journal, error: unknown): Promise<void> {
    const full =
      error instanceof Error && "code" in error && /^(ENOSPC|EDQUOT)$/.test(String(error.code));
    if (!full) return this.#distrust();
    try {
      await journal.file.truncate(journal.length);
    } catch {
      await this.#distrust();
    }
  }

  async #distrust(): Promise<void> {
    const journal = this.#journal;
    this.#journal = undefined;
    this.#resumeAt = undefined;
    await journal?.file.close().catch(() => undefined);
  }

  /**
   * A new generation: an empty journal first, then the snapshot. Until the snapshot has its own
   * name the old generation is still the one that counts; once it may have it, only the new one.
   */
  async #begin(sequence: number, record: unknown, apart: boolean): Promise<Journal> {
    const { files, path } = this.#folder;
    const generation = this.#highest + 1;
    const name = snapshotName(generation);
    await ensureFolder(files, path);
    this.#highest = generation;
    const file = await files.create(this.#path(journalName(generation)));
    try {
      await file.sync();
      await files.syncDirectory(path);
      await draft(this.#folder, name, Buffer.from(sealSnapshot({ sequence, record })));
    } catch (error) {
      await dropDraft(this.#folder, name);
      await file.close().catch(() => undefined);
      throw error;
    }
    const old = this.#journal;
    this.#journal = undefined;
    this.#resumeAt = undefined;
    await old?.file.close().catch(() => undefined);
    try {
      await publish(this.#folder, name);
    } catch (error) {
      await file.close().catch(() => undefined);
      throw error;
    }
    await this.#removeOld();
    this.#generation = generation;
    this.#journal = startJournal(file, 0, apart);
    return this.#journal;
  }

  /** What cannot be removed now is tried again with the next generation. */
  async #removeOld(): Promise<void> {
    const { files, path } = this.#folder;
    const names = await files.list(path).catch(() => []);
    for (const name of names) {
      const generation = generationOf(name);
      if (generation !== undefined && generation < this.#generation) {
        await files.remove(this.#path(name)).catch(() => undefined);
      }
    }
  }

  readonly #path = (name: string): string => join(this.#folder.path, name);
}
