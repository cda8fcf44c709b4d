import type { Store } from "../../../store/store.ts";

/**
 * A record in memory that is written behind: a change counts at once, and its promise resolves when
 * it is safe on disk. Changes that come while one is being written share the next write. When a
 * write fails, the record in memory stands, and the next change tries again: a full disk silences
 * no cue.
 */
export class Kept<T> {
  readonly #id: string;
  readonly #store: Store<T>;
  #value: T;
  /** What the store holds. */
  #saved: T | undefined;
  #writing: Promise<void> | undefined;
  #next: Promise<void> | undefined;
  /** Something in the next write must survive a power cut. */
  #durable = false;
  #watch: ((now: T, before: T) => void) | undefined;

  constructor(id: string, store: Store<T>, value: T, saved: T | undefined) {
    this.#id = id;
    this.#store = store;
    this.#value = value;
    this.#saved = saved;
  }

  get value(): T {
    return this.#value;
  }

  /** Tells of every change in memory, as it is made. */
  watch(watch: (now: T, before: T) => void): void {
    this.#watch = watch;
  }

  /**
   * @param durable  whether it must survive a power cut; else a kill alone
   * @throws StoreError when it could not be written; the change stands in memory all the same
   */
  async change(
    make: (value: T) => T,
    { durable = true }: { readonly durable?: boolean } = {},
  ): Promise<void> {
    const next = make(this.#value);
    if (next === this.#value && this.#saved === next) return;
    const before = this.#value;
    this.#value = next;
    this.#watch?.(next, before);
    this.#durable ||= durable;
    if (this.#writing === undefined && this.#next === undefined) return this.#start();
    // What is being written now was made before this change.
    this.#next ??= (this.#writing ?? Promise.resolve())
      .catch(() => undefined)
      .then(() => {
        this.#next = undefined;
        return this.#start();
      });
    return this.#next;
  }

  /** Resolves once nothing is being written. */
  async idle(): Promise<void> {
    for (;;) {
      const under = this.#next ?? this.#writing;
      if (under === undefined) return;
      await under.catch(() => undefined);
    }
  }

  #start(): Promise<void> {
    const writing = this.#write().finally(() => {
      if (this.#writing === writing) this.#writing = undefined;
    });
    this.#writing = writing;
    return writing;
  }

  async #write(): Promise<void> {
    const next = this.#value;
    if (next === this.#saved) return;
    const durable = this.#durable;
    this.#durable = false;
    await this.#store.commit(this.#id, this.#saved, next, { durable });
    this.#saved = next;
  }
}
