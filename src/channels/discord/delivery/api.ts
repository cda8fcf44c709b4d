import { DefaultRestOptions, REST, type RESTOptions } from "discord.js";
import type { Clock } from "../../../platform/clock.ts";
import type { DiscordSettings } from "../../../settings.ts";
import { Limited } from "./failure.ts";
import { type Limits, type Rank, routeKey } from "./limits.ts";

export type ApiParts = {
  readonly settings: DiscordSettings;
  readonly limits: Limits;
  readonly clock: Clock;
  readonly now: () => number;
};

type Method = "get" | "post" | "put" | "patch" | "delete";

export type Ask = {
  readonly body?: unknown;
  readonly files?: readonly { readonly name: string; readonly data: Uint8Array }[] | undefined;
  readonly signal?: AbortSignal | undefined;
  /** False where the address itself holds the right to use it. */
  readonly auth?: boolean;
};

export type Api = {
  /** Makes a request now. For lanes of the sender, which keep the limits themselves. */
  request(method: Method, path: `/${string}`, ask?: Ask): Promise<unknown>;
  /** Makes a request once its limit allows it. */
  call(method: Method, path: `/${string}`, ask?: Ask): Promise<unknown>;
};

/** A request that hangs for so long, ms, is given up, whoever made it. */
const LONGEST = 15_000;
/** An ask that would have to wait longer than this for its limit, ms, is not worth making. */
const LONGEST_WAIT = 60_000;

/**
 * The library keeps a queue for each interaction that was answered in two steps; those that are
 * over go this often, ms, instead of once an hour, when thousands lie there.
 */
const SWEEP = 5 * 60_000;

/** What would make the library wait by a clock of its own. */
const LIMIT_HEADERS = /^(x-ratelimit-(?!scope)|retry-after$)/i;

/**
 * How the library makes its requests: once, never again by itself, since what may have been done
 * must only be repeated with its nonce, and never sooner than a refusal for haste allows.
 */
export function restOptions({
  settings,
  limits,
  now,
}: Omit<ApiParts, "clock">): Partial<RESTOptions> {
  return {
    ...(settings.api === undefined ? {} : { api: settings.api }),
    retries: 0,
    // Its own count of all requests in a second would hold cues up behind edits; `limits` counts.
    globalRequestsPerSecond: Number.MAX_SAFE_INTEGER,
    timeout: LONGEST,
    handlerSweepInterval: SWEEP,
    makeRequest: async (url, init) => {
      const answer = await DefaultRestOptions.makeRequest(url, init);
      const key = routeKey(init.method ?? "GET", url);
      const wait = limits.learn(key, answer.status, answer.headers, now());
      if (wait !== undefined) {
        // Read to its end, so that the connection is free for the next.
        await answer.arrayBuffer();
        throw new Limited(wait);
      }
      const { status } = answer;
      // The library reads an empty answer as JSON where its headers say so.
      const useless = status === 204 ? /^content-type$/i : LIMIT_HEADERS;
      const headers = [...answer.headers].filter(
        ([name]) => !LIMIT_HEADERS.test(name) && !useless.test(name),
      );
      return {
        status,
        headers: new Headers(headers),
        ok: answer.ok,
        statusText: answer.statusText,
        body: answer.body,
        get bodyUsed() {
          return answer.bodyUsed;
        },
        arrayBuffer: () => answer.arrayBuffer(),
        json: () => answer.json(),
        text: () => answer.text(),
      };
    },
  };
}

export function createApi(parts: ApiParts): Api {
  const { clock, limits, now, settings } = parts;
  const rest = new REST({ version: "10", ...restOptions(parts) }).setToken(settings.token.reveal());

  const request: Api["request"] = (method, path, { body, files, signal, auth = true } = {}) =>
    rest[method](path, {
      auth,
      ...(body === undefined ? {} : { body }),
      ...(files === undefined
        ? {}
        : { files: files.map(({ name, data }) => ({ name, data: Buffer.from(data) })) }),
      ...(signal === undefined ? {} : { signal }),
    });

  return {
    request,
    async call(method, path, ask) {
      const key = routeKey(method, path);
      const rank: Rank = "cue";
      const free = limits.freeAt(key, rank, now());
      const wait = free - now();
      if (wait > LONGEST_WAIT) throw new Limited(wait);
      if (wait > 0) await new Promise<void>((done) => void clock.setTimer(wait, done));
      limits.take(key, now());
      return request(method, path, ask);
    },
  };
}
