import { dirname, join } from "node:path";
import { Low } from "lowdb";
import { type FileSystem, nodeFileSystem } from "../platform/file-system.ts";
import { conflict } from "./conflict.ts";
import { type DirectoryLock, lockDirectory } from "./directory-lock.ts";
import { fillBench } from "./fill-bench.ts";
import { ensureFolder, type Folder, within, writeWhole } from "./folder.ts";
import { generationsIn } from "./generations.ts";
import { type AdapterOptions, JournalAdapter } from "./journal-adapter.ts";
import { fileNameOf, idOf } from "./names.ts";
import { checkPlain } from "./plain.ts";
import { readArchived } from "./read-archived.ts";
import { sealArchived } from "./seal.ts";
import type { Archives, CommitOptions, Filled, Folders, Loaded, Store } from "./store.ts";
import { diskError, StoreError } from "./store-error.ts";
import { finishSwap, stage, swap } from "./swap-folder.ts";

export type FileStoreOptions<T> = AdapterOptions<T> & {
  readonly directory: string;
  readonly files?: FileSystem;
  readonly lock?: (directory: string) => Promise<DirectoryLock>;
};

type Bench<T> = { readonly low: Low<T | null>; readonly adapter: JournalAdapter<T> };

/** Opens the data folder for this process alone, making it when there is none. */
export async function openFileStore<T>(options: FileStoreOptions<T>): Promise<Store<T>> {
  const { directory, files = nodeFileSystem } = options;
  try {
    await ensureFolder(files, directory);
    await ensureFolder(files, join(directory, "benches"));
  } catch (error) {
    throw diskError(error, "make the data folder");
  }
  const lock = await (options.lock ?? lockDirectory)(directory);
  return new FileStore({ files, path: directory, shown: "" }, lock, options);
}

class FileStore<T> implements Store<T> {
  readonly #benches: Folder;
  readonly #lock: DirectoryLock;
  readonly #options: AdapterOptions<T>;
  readonly #opening = new Map<string, Promise<Bench<T>>>();
  readonly #open = new Map<string, Bench<T>>();
  /** Archiving goes one at a time, so that no two drafts of one name meet. */
  #archiving: Promise<unknown> = Promise.resolve();
  #closed = false;

  constructor(folder: Folder, lock: DirectoryLock, options: AdapterOptions<T>) {
    this.#benches = within(folder, "benches");
    this.#lock = lock;
    this.#options = options;
  }

  async load(id: string): Promise<Loaded<T>> {
    this.#checkOurs();
    const opening = this.#opening.get(id) ?? this.#read(id);
    this.#opening.set(id, opening);
    try {
      const bench = await opening;
      this.#open.set(id, bench);
      return { value: bench.adapter.latest, notices: bench.adapter.notices };
    } catch (error) {
      this.#opening.delete(id);
      throw error;
    }
  }

  async commit(
    id: string,
    previous: T | undefined,
    next: T,
    options: CommitOptions = {},
  ): Promise<void> {
    this.#checkOurs();
    const bench = this.#open.get(id);
    if (bench === undefined) throw new TypeError("A bench is loaded before it is written.");
    if (bench.adapter.latest !== previous) throw conflict();
    if (previous === next) return;
    bench.low.data = next;
    try {
      await (options.durable === false ? bench.adapter.writeAs(next, false) : bench.low.write());
    } catch (error) {
      bench.low.data = bench.adapter.latest ?? null;
      throw error;
    }
  }

  async archive(id: string, name: string, record: unknown): Promise<void> {
    this.#checkOurs();
    checkPlain(record, name);
    const folder = this.#archiveOf(id);
    const file = `${fileNameOf(name)}.json`;
    const writing = this.#archiving.then(async () => {
      await ensureFolder(folder.files, dirname(folder.path));
      await ensureFolder(folder.files, folder.path);
      await writeWhole(folder, file, sealArchived(record));
    });
    this.#archiving = writing.catch(() => undefined);
    try {
      await writing;
    } catch (error) {
      throw diskError(error, "put that record in the archive");
    }
  }

  async recall(id: string, name: string): Promise<unknown> {
    this.#checkOurs();
    return readArchived(this.#archiveOf(id), name);
  }

  archivePath(id: string): string {
    return this.#archiveOf(id).path;
  }

  besidePath(id: string, name: string): string {
    return within(within(this.#benches, fileNameOf(id)), name).path;
  }

  async rewrite(id: string, previous: T | undefined, next: T, archives: Archives): Promise<T> {
    await this.#replace(id, previous, async (folder) => {
      await fillBench(folder, next, archives, this.#options);
    });
    const { value } = await this.load(id);
    if (value === undefined) throw new TypeError("A bench that was written is there.");
    return value;
  }

  async rewriteBy(
    id: string,
    previous: T | undefined,
    fill: (folders: Folders) => Promise<Filled<T>>,
  ): Promise<T> {
    const present = within(this.#benches, fileNameOf(id));
    let refusal: unknown;
    const filled = await this.#replace(id, previous, async (folder) => {
      const made = await fill({ present: present.path, next: folder.path }).catch(
        (error: unknown) => {
          refusal = error;
          throw error;
        },
      );
      const { highest } = generationsIn(await folder.files.list(folder.path));
      if (made.standing.generation !== highest || made.standing.highest !== highest) {
        throw new TypeError("What was put into the folder stands elsewhere than is said.");
      }
      return made;
    }).catch((error: unknown) => {
      // Why it was not filled is for whoever was to fill it to say.
      throw refusal ?? error;
    });
    const adapter = new JournalAdapter(present, this.#options);
    adapter.adopt(filled.value, filled.standing);
    const bench = { low: new Low<T | null>(adapter, filled.value), adapter };
    this.#opening.set(id, Promise.resolve(bench));
    this.#open.set(id, bench);
    return filled.value;
  }

  /** Puts what `fill` puts into an empty folder in the place of a bench, which is open no more then. */
  async #replace<F>(
    id: string,
    previous: T | undefined,
    fill: (folder: Folder) => Promise<F>,
  ): Promise<F> {
    this.#checkOurs();
    const old = this.#open.get(id);
    if (old === undefined) throw new TypeError("A bench is loaded before it is written.");
    if (old.adapter.latest !== previous) throw conflict();
    const name = fileNameOf(id);
    const rewriting = this.#archiving.then(async () => {
      const staged = within(this.#benches, await stage(this.#benches, name));
      const filled = await fill(staged).catch(async (error: unknown) => {
        // What was begun takes up no room; one that cannot be removed now is at the next start.
        await staged.files.removeTree(staged.path).catch(() => undefined);
        throw error;
      });
      if (old.adapter.latest !== previous) throw conflict();
      await old.adapter.close();
      this.#open.delete(id);
      await swap(this.#benches, name);
      return filled;
    });
    this.#archiving = rewriting.catch(() => undefined);
    try {
      return await rewriting;
    } catch (error) {
      throw diskError(error, "write the bench anew");
    } finally {
      if (!this.#open.has(id)) this.#opening.delete(id);
    }
  }

  async list(): Promise<readonly string[]> {
    this.#checkOurs();
    const { files, path } = this.#benches;
    const ids: string[] = [];
    try {
      for (const name of await files.list(path)) {
        const id = idOf(name);
        if (id === undefined) continue;
        const { highest } = generationsIn(await files.list(within(this.#benches, name).path));
        if (highest > 0) ids.push(id);
      }
    } catch (error) {
      throw diskError(error, "read the data folder");
    }
    return ids.sort();
  }

  async close(): Promise<void> {
    if (this.#closed) return;
    this.#closed = true;
    const benches = await Promise.allSettled(this.#opening.values());
    const closing = benches.map(async (bench) => {
      if (bench.status === "fulfilled") await bench.value.adapter.close();
    });
    const results = await Promise.allSettled([...closing, this.#archiving]);
    await this.#lock.release();
    for (const result of results) if (result.status === "rejected") throw result.reason;
  }

  async #read(id: string): Promise<Bench<T>> {
    await this.#finish(fileNameOf(id));
    const adapter = new JournalAdapter(within(this.#benches, fileNameOf(id)), this.#options);
    const low = new Low<T | null>(adapter, null);
    await low.read();
    return { low, adapter };
  }

  async #finish(name: string): Promise<void> {
    try {
      await finishSwap(this.#benches, name);
    } catch (error) {
      throw diskError(error, "finish writing the bench anew");
    }
  }

  #archiveOf(id: string): Folder {
    return within(within(this.#benches, fileNameOf(id)), "archive");
  }

  #checkOurs(): void {
    if (this.#closed) throw new StoreError("closed", "The store is closed: I am stopping.");
    if (this.#lock.isLost()) {
      throw new StoreError(
        "in-use",
        "Another Wetside has taken over this folder, so I no longer write in it. Stop one of the two.",
      );
    }
  }
}
