import type { Bench } from "../domain/session/bench.ts";
import { type Past, withArchived } from "../domain/session/past.ts";
import type { Run } from "../domain/session/run.ts";
import { type Instant, secondsBetween } from "../domain/units/quantity.ts";
import type { Store } from "../store/store.ts";
import { recallPast } from "./recall-past.ts";

/** Let go of when nobody has asked for them for so long, s. */
const KEPT = 600;

/** One reading of the files, and what was archived while it went on. */
type Reading = { readonly past: Promise<Past>; meanwhile: readonly Run[] };

/** A bench's runs in files: read when first asked for, and in step with what is archived after. */
export class PastRuns {
  readonly #store: Pick<Store<unknown>, "recall">;
  readonly #id: string;
  #known: Past | undefined;
  #reading: Reading | undefined;
  #asked: Instant | undefined;

  constructor(store: Pick<Store<unknown>, "recall">, id: string) {
    this.#store = store;
    this.#id = id;
  }

  /** Undefined while they have not been read. */
  get known(): Past | undefined {
    return this.#known;
  }

  /** Resolves once they are known, or were dropped meanwhile. */
  async read(bench: Bench, now: Instant): Promise<void> {
    this.#asked = now;
    if (this.#known !== undefined) return;
    this.#reading ??= { past: recallPast(this.#store, this.#id, bench), meanwhile: [] };
    const reading = this.#reading;
    try {
      const past = await reading.past;
      if (this.#reading === reading) this.#known = withArchived(past, reading.meanwhile);
    } finally {
      if (this.#reading === reading) this.#reading = undefined;
    }
  }

  archived(runs: readonly Run[]): void {
    if (this.#known !== undefined) this.#known = withArchived(this.#known, runs);
    if (this.#reading !== undefined) {
      this.#reading.meanwhile = [...this.#reading.meanwhile, ...runs];
    }
  }

  /** The files are no longer what they were. */
  drop(): void {
    this.#known = undefined;
    this.#reading = undefined;
  }

  /** What nobody looks at is not held in memory. */
  letGo(now: Instant): void {
    if (this.#asked !== undefined && secondsBetween(this.#asked, now) > KEPT) {
      this.#known = undefined;
    }
  }
}
