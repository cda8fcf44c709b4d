import type { Clock } from "../../../src/platform/clock.ts";

/** The first second of 2015: ids count milliseconds from here (API reference, "Snowflakes"). */
const EPOCH = 1_420_070_400_000;

/**
 * The time at the service: it starts where our machine's clock stands and then goes on by itself,
 * through our machine's sleep and however its wall clock is set.
 */
export function createServiceTime(clock: Clock): () => number {
  const wall = clock.wall();
  const uptime = clock.uptime();
  return () => wall + (clock.uptime() - uptime);
}

export type Ids = {
  /** A fresh id for something made now; each is greater than the one before. */
  next(): string;
  /** A fresh id for something made `ms` before now, for guilds and people who were here already. */
  past(ms: number): string;
};

export function createIds(now: () => number): Ids {
  let last = 0n;
  const used = new Set<bigint>();
  const latest = new Map<bigint, bigint>();
  const of = (ms: number): bigint => BigInt(Math.floor(ms) - EPOCH) << 22n;
  return {
    next() {
      const fresh = of(now());
      last = fresh > last ? fresh : last + 1n;
      return String(last);
    },
    past(ms) {
      const wanted = of(now() - ms);
      let id = latest.get(wanted) ?? wanted;
      while (used.has(id)) id += 1n << 22n;
      used.add(id);
      latest.set(wanted, id);
      return String(id);
    },
  };
}

/** When the bearer of an id was made, in Unix milliseconds. */
export const madeAt = (id: string): number => Number(BigInt(id) >> 22n) + EPOCH;

/** Which of `count` shards hears of a guild (Gateway, "Sharding"): (id >> 22) % count. */
export const shardOf = (guildId: string, count: number): number =>
  Number((BigInt(guildId) >> 22n) % BigInt(count));
