import { createHash } from "node:crypto";
import type { Clock } from "../../../../src/platform/clock.ts";
import type { Route } from "./call.ts";

export type Verdict = {
  readonly headers: Record<string, string>;
  /** Seconds to wait, when the request is one too many. */
  readonly retryAfter: number | undefined;
  readonly scope: "user" | "global" | undefined;
};

type Window = { ends: number; left: number };

/** The path's channel, guild or webhook: each has its own count ("Rate Limits"). */
const majorOf = (params: Readonly<Record<string, string>>): string =>
  params.channel ??
  params.guild ??
  (params.token === undefined ? "" : `${params.application ?? params.interaction}/${params.token}`);

/** A name for the bucket that does not tell the channel ("Header Format", X-RateLimit-Bucket). */
const nameOf = (route: Route): string =>
  createHash("sha256").update(`${route.method} ${route.path}`).digest("hex").slice(0, 32);

/** All of a bot together: 50 requests a second ("Global Rate Limit"). */
const GLOBAL = { limit: 50, windowMs: 1000 };

export type Buckets = {
  count(route: Route, params: Readonly<Record<string, string>>, owner: string): Verdict;
};

/**
 * Counts requests in windows that open with their first one.
 *
 * @param pace how long a second of the service lasts, in seconds: below 1, windows are shorter, and
 *   the headers say so
 */
export function createBuckets(clock: Clock, pace: number): Buckets {
  const windows = new Map<string, Window>();
  const open = (key: string, limit: number, windowMs: number): Window => {
    const now = clock.monotonic();
    const known = windows.get(key);
    if (known !== undefined && known.ends > now) return known;
    const fresh = { ends: now + windowMs * pace, left: limit };
    windows.set(key, fresh);
    return fresh;
  };
  /** Whole seconds, as the page's examples; finer only where seconds are shorter here. */
  const retryHeader = (seconds: number): Record<string, string> => ({
    "retry-after": String(pace < 1 ? seconds : Math.ceil(seconds)),
  });
  const secondsTo = (ends: number): number =>
    Math.ceil(Math.max(0, ends - clock.monotonic())) / 1000;

  return {
    count(route, params, owner) {
      // Interaction endpoints are outside the global limit ("Global Rate Limit").
      if (route.token === "bot") {
        const all = open(`global ${owner}`, GLOBAL.limit, GLOBAL.windowMs);
        if (all.left <= 0) {
          const retryAfter = secondsTo(all.ends);
          const headers = { "x-ratelimit-global": "true", ...retryHeader(retryAfter) };
          return { retryAfter, scope: "global", headers };
        }
        all.left -= 1;
      }
      const { limit, windowMs } = route.bucket;
      const name = nameOf(route);
      const window = open(`${owner} ${name} ${majorOf(params)}`, limit, windowMs);
      const exceeded = window.left <= 0;
      if (!exceeded) window.left -= 1;
      const left = secondsTo(window.ends);
      return {
        retryAfter: exceeded ? left : undefined,
        scope: exceeded ? "user" : undefined,
        headers: {
          ...(exceeded ? retryHeader(left) : {}),
          "x-ratelimit-limit": String(limit),
          "x-ratelimit-remaining": String(window.left),
          "x-ratelimit-reset": ((clock.wall() + left * 1000) / 1000).toFixed(3),
          "x-ratelimit-reset-after": left.toFixed(3),
          "x-ratelimit-bucket": name,
        },
      };
    },
  };
}
