/** So many words at once, and one more after each so many ms. */
export type Allowance = { readonly most: number; readonly each: number };
const SPEAKING: Allowance = { most: 12, each: 500 };
/** Quicker than anybody types. */
export const TYPING: Allowance = { most: 40, each: 100 };
/** Beyond it a person is told once, and then no more for so long, ms. */
const TOLD_AGAIN = 10_000;
/** People who said nothing for so long, ms, are forgotten: their budget is full. */
const FORGOTTEN = 60_000;

type Purse = { left: number; at: number; told: number };

export type Spent = "heard" | "told" | "silent";

/** How much one person may ask of the bot: plenty for two wet hands, too little for a script. */
export class Budget {
  readonly #purses = new Map<string, Purse>();
  readonly #allowance: Allowance;
  #swept = 0;

  constructor(allowance: Allowance = SPEAKING) {
    this.#allowance = allowance;
  }

  /** Takes one word from a person's budget. "told": it is used up, and this is the time to say so. */
  spend(person: string, now: number): Spent {
    this.#sweep(now);
    const { most, each } = this.#allowance;
    const purse = this.#purses.get(person) ?? {
      left: most,
      at: now,
      told: Number.NEGATIVE_INFINITY,
    };
    this.#purses.set(person, purse);
    purse.left = Math.min(most, purse.left + Math.max(0, now - purse.at) / each);
    purse.at = now;
    if (purse.left >= 1) {
      purse.left -= 1;
      return "heard";
    }
    if (now - purse.told < TOLD_AGAIN) return "silent";
    purse.told = now;
    return "told";
  }

  #sweep(now: number): void {
    if (now - this.#swept < FORGOTTEN) return;
    this.#swept = now;
    for (const [person, { at }] of this.#purses) {
      if (now - at >= FORGOTTEN) this.#purses.delete(person);
    }
  }
}
