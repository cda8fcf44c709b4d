/** Remembers the latest of many ids, so that what comes twice is heard once. */
export class Seen {
  readonly #most: number;
  readonly #ids = new Set<string>();

  constructor(most = 2000) {
    this.#most = most;
  }

  /** True the first time an id comes. */
  first(id: string): boolean {
    if (this.#ids.has(id)) return false;
    this.#ids.add(id);
    if (this.#ids.size > this.#most) {
      for (const oldest of this.#ids) {
        this.#ids.delete(oldest);
        break;
      }
    }
    return true;
  }
}
