import type { Standing } from "./bench-log.ts";

/** What a bench was found to be, and what its user should be told about the files. */
export type Loaded<T> = {
  /** Undefined: there is no such bench yet. */
  readonly value: T | undefined;
  /** Plain sentences: a torn last line dropped, a damaged file kept aside and under which name. */
  readonly notices: readonly string[];
};

export type CommitOptions = {
  /**
   * True, the default: the promise resolves once the change would survive a power cut. False: it
   * resolves once written; the next durable commit makes it safe as well.
   */
  readonly durable?: boolean;
};

/** Archived records by name, one after the other. */
export type Archives = AsyncIterable<readonly [name: string, record: unknown]>;

/** Paths: of a bench as it is, and of where the one in its place is to be put. */
export type Folders = { readonly present: string; readonly next: string };

/** A bench that was put into a folder, all of it safe there, and where its files stand. */
export type Filled<T> = { readonly value: T; readonly standing: Standing };

/**
 * Where benches are kept; it knows nothing of what a bench holds. Values are plain JSON and are
 * never altered in place. Every promise may reject with a `StoreError`, whose message is meant for
 * the user.
 */
export type Store<T> = {
  /** Reads a bench. A second call gives the value held, as of its last commit. */
  load(id: string): Promise<Loaded<T>>;
  /**
   * Replaces `previous`, the very value last loaded or committed (undefined for a new bench), by
   * `next`. Commits to one bench may overlap, each built on the one before: they are kept in the
   * order of the calls, and when one fails those built on it fail too, so that the value held is
   * what it was. A `previous` that is not the latest is refused: no update is ever lost.
   */
  commit(id: string, previous: T | undefined, next: T, options?: CommitOptions): Promise<void>;
  /** Puts a finished record in a file of its own, safe before the promise resolves. */
  archive(id: string, name: string, record: unknown): Promise<void>;
  /** Reads an archived record back; undefined when there is none of that name. */
  recall(id: string, name: string): Promise<unknown>;
  /**
   * The folder on disk that holds a bench's archived records, for a thread of its own that reads
   * many of them (`readArchived`); missing where they lie in no such folder.
   */
  archivePath?(id: string): string;
  /**
   * A folder of this name within a bench's own on disk: what whoever filled that anew (`rewriteBy`)
   * has put beside the records, for its owner to take. Missing where benches lie in no folders.
   */
  besidePath?(id: string, name: string): string;
  /**
   * Puts `next` and these archived records in the place of all that is kept of a bench: journals,
   * older generations, copies kept aside and the archive go for good. Only when everything new is
   * safe is the old removed; a power cut leaves the one or the other. Returns the value as held.
   */
  rewrite(id: string, previous: T | undefined, next: T, archives: Archives): Promise<T>;
  /**
   * As `rewrite`, where somebody else, a thread of its own, puts the new bench on disk; missing
   * where benches lie in no folders.
   */
  rewriteBy?(
    id: string,
    previous: T | undefined,
    fill: (folders: Folders) => Promise<Filled<T>>,
  ): Promise<T>;
  /** The ids of all benches, in order. */
  list(): Promise<readonly string[]>;
  /** Waits for what is under way, makes it safe and lets go of the folder. */
  close(): Promise<void>;
};
