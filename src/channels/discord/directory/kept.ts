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

  constructor(id: string, store: Store<T>, value: T, saved: T | undefined) {
    this.#id = id;
    this.#store = store;
    this.#value = value;
    this.#saved = saved;
  }

  get value(): T {
    return this.#value;
  }

  /** @throws StoreError when it could not be written; the change stands in memory all the same */
  async change(make: (value: T) => T): Promise<void> {
    const next = make(this.#value);
    if (next === this.#value && this.#saved === next) return;
    this.#value = next;
    if (this.#writing === undefined) {
      this.#writing = this.#write();
      return this.#writing;
    }
    // What is being written now was made before this change.
    this.#next ??= this.#writing
      .catch(() => undefined)
      .then(() => {
        this.#next = undefined;
        this.#writing = this.#write();
        return this.#writing;
      });
    return this.#next;
  }

  async #write(): Promise<void> {
    const next = this.#value;
    try {
      if (next === this.#saved) return;
      await this.#store.commit(this.#id, this.#saved, next);
      this.#saved = next;
    } finally {
      this.#writing = undefined;
    }
  }
}
