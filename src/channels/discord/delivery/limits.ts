/** What presses most goes first, and the last of a bucket is kept for it. */
export const ranks = ["cue", "other", "edit"] as const;
export type Rank = (typeof ranks)[number];

/** The part of a reply's headers that tells about limits. */
export type Headers = { get(name: string): string | null };

type Bucket = { limit: number; remaining: number; resetAt: number };

/**
 * All requests of a bot together in one second (Discord's documentation, topic "Rate Limits"; from
 * memory), and how many of them each rank may use up: answers leave room for cues, edits for both.
 */
const GLOBAL: Readonly<Record<Rank, number>> = { cue: 50, other: 42, edit: 25 };
/** A limit told without its length, ms. */
const UNTOLD = 1000;
const SECOND = 1000;

/** Everything but the major parameter's id is the same limit: "POST /channels/1/messages". */
export function routeKey(method: string, path: string): string {
  const [, plain = path] = /^(?:.*\/v\d+)?(\/[^?]*)/.exec(path) ?? [];
  const pieces = plain.split("/").filter((piece) => piece !== "");
  const shown = pieces.map((piece, at) =>
    at > 1 && /^(\d{15,20}|%40\w+)$/.test(piece) ? ":id" : piece,
  );
  return `${method.toUpperCase()} /${shown.join("/")}`;
}

/**
 * Limits as Discord's headers tell them. Kept by the clock it is given, so that no request goes out
 * that would be refused, and the last one of a bucket is left for a cue.
 */
export class Limits {
  /** Which bucket a route draws from: routes may share one. */
  readonly #bucketOf = new Map<string, string>();
  readonly #buckets = new Map<string, Bucket>();
  #blockedUntil = 0;
  /** When the latest requests went out, oldest first. */
  #recent: number[] = [];

  /** The instant from which a request of this rank may go out: `now` or later. */
  freeAt(key: string, rank: Rank, now: number): number {
    const bucket = this.#buckets.get(this.#bucketOf.get(key) ?? key);
    return Math.max(this.openAt(rank, now), bucketFreeAt(bucket, rank, now));
  }

  /** The same for any route at all: before it nothing of this rank need be looked at. */
  openAt(rank: Rank, now: number): number {
    return Math.max(now, this.#blockedUntil, this.#globalFreeAt(rank, now));
  }

  /** Counts a request that goes out now. */
  take(key: string, now: number): void {
    const bucket = this.#buckets.get(this.#bucketOf.get(key) ?? key);
    if (bucket !== undefined && bucket.resetAt > now) bucket.remaining -= 1;
    this.#recent.push(now);
    if (this.#recent.length > GLOBAL.cue) this.#recent.shift();
  }

  /** Takes in what a reply's headers say. @returns how long, ms, where it was a refusal for haste */
  learn(key: string, status: number, headers: Headers, now: number): number | undefined {
    const number = (name: string): number | undefined => {
      const text = headers.get(name);
      const value = text === null ? Number.NaN : Number(text);
      return Number.isFinite(value) ? value : undefined;
    };
    const limit = number("x-ratelimit-limit");
    const remaining = number("x-ratelimit-remaining");
    const resetAfter = number("x-ratelimit-reset-after");
    const name = headers.get("x-ratelimit-bucket");
    const id = name === null ? key : `${name} ${key.split("/").slice(1, 3).join("/")}`;
    this.#bucketOf.set(key, id);
    if (limit !== undefined && remaining !== undefined && resetAfter !== undefined) {
      this.#buckets.set(id, { limit, remaining, resetAt: now + resetAfter * SECOND });
    }
    if (status !== 429) return undefined;
    // Told without a time it is not tried again at once, which would go on without end.
    const told = number("retry-after") ?? resetAfter;
    const wait = told === undefined || told <= 0 ? UNTOLD : told * SECOND;
    const scope = headers.get("x-ratelimit-scope");
    // One that names no bucket is not Discord's own: its gatekeeper holds up everything.
    const isAll = headers.get("x-ratelimit-global") !== null || scope === "global";
    if (isAll || (scope === null && name === null)) {
      this.#blockedUntil = Math.max(this.#blockedUntil, now + wait);
    } else {
      this.#buckets.set(id, { limit: limit ?? 1, remaining: 0, resetAt: now + wait });
    }
    return wait;
  }

  /** Forgets buckets that are full again. */
  sweep(now: number): void {
    for (const [id, { resetAt }] of this.#buckets) if (resetAt <= now) this.#buckets.delete(id);
    for (const [key, id] of this.#bucketOf) if (!this.#buckets.has(id)) this.#bucketOf.delete(key);
  }

  /** Never more than may be in any one second, wherever it begins. */
  #globalFreeAt(rank: Rank, now: number): number {
    const before = this.#recent.at(-GLOBAL[rank]);
    return before === undefined ? now : Math.max(now, before + SECOND);
  }
}

function bucketFreeAt(bucket: Bucket | undefined, rank: Rank, now: number): number {
  if (bucket === undefined || bucket.resetAt <= now) return now;
  // Of a bucket of one or two nothing can be kept back.
  const kept = rank === "cue" || bucket.limit < 3 ? 0 : 1;
  return bucket.remaining > kept ? now : bucket.resetAt;
}
