import type { Clock } from "../../../../src/platform/clock.ts";
import type { Fault, Faults } from "../faults.ts";
import type { Hosts } from "../views/message.ts";
import type { Application, World } from "../world.ts";
import type { Buckets } from "./buckets.ts";
import { type Answer, blame, type Route } from "./call.ts";
import type { InvalidRequests } from "./invalid-requests.ts";
import { matchRoute } from "./match-route.ts";
import type { Body } from "./read-body.ts";
import { Refusal, refusals } from "./refusal.ts";

/** What goes back: a status, a body, headers; or nothing at all. */
export type Reply =
  | {
      readonly kind: "reply";
      readonly status: number;
      readonly body: object | string | undefined;
      readonly headers: Record<string, string>;
      readonly delayMs: number;
    }
  | { readonly kind: "drop" }
  | { readonly kind: "hang" };

/** A request that came in, for tests to look at. Instants are the service's time. */
export type Logged = {
  readonly method: string;
  /** The template, "/channels/:channel/messages", or the path of an unknown route. */
  readonly route: string;
  readonly path: string;
  readonly at: number;
  readonly body: unknown;
  /** Real ms, from an arbitrary start. */
  readonly arrived: number;
  status: number | "drop" | "hang";
  /** Whether it was carried out, whatever was answered. */
  performed: boolean;
};

export type Desk = {
  readonly world: World;
  readonly hosts: Hosts;
  readonly routes: readonly Route[];
  readonly buckets: Buckets;
  readonly faults: Faults;
  readonly invalid: InvalidRequests;
  readonly pace: Clock;
  readonly requests: Logged[];
};

export type Incoming = {
  readonly method: string;
  /** Without "/api/v10" and the query. */
  readonly path: string;
  readonly query: URLSearchParams;
  readonly authorization: string | undefined;
  readonly userAgent: string | undefined;
  readonly body: Body | Refusal;
};

const reply = (
  status: number,
  body: object | string | undefined,
  headers: Record<string, string> = {},
): Reply & { kind: "reply" } => ({ kind: "reply", status, body, headers, delayMs: 0 });

const refused = (
  refusal: Refusal,
  headers: Record<string, string> = {},
): Reply & { kind: "reply" } =>
  reply(refusal.status, refusal.body(), {
    ...headers,
    ...(refusal.retryAfter === undefined
      ? {}
      : { "retry-after": String(Math.ceil(refusal.retryAfter)), "x-ratelimit-scope": "user" }),
  });

const tooMany = (
  retryAfter: number,
  scope: "user" | "shared" | "global",
  headers: Record<string, string>,
): Reply & { kind: "reply" } =>
  reply(
    429,
    {
      message:
        scope === "shared" ? "The resource is being rate limited." : "You are being rate limited.",
      retry_after: retryAfter,
      global: scope === "global",
    },
    {
      "retry-after": String(retryAfter),
      ...headers,
      "x-ratelimit-scope": scope,
      ...(scope === "global" ? { "x-ratelimit-global": "true" } : {}),
    },
  );

/** Whose token it is; a revoked or foreign one is nobody's. */
function authenticate(world: World, authorization: string | undefined): Application | undefined {
  const token = authorization?.startsWith("Bot ") ? authorization.slice(4) : undefined;
  return token === undefined ? undefined : world.applications.get(token);
}

/** Takes one request through identity, limits, faults and its route. */
export function answer(desk: Desk, incoming: Incoming): Reply {
  const { world } = desk;
  const { method, path } = incoming;
  const matched = matchRoute(desk.routes, method, path);
  const logged: Logged = {
    method,
    route: matched?.route.path ?? path,
    path,
    at: world.now(),
    arrived: performance.now(),
    body: incoming.body instanceof Refusal ? undefined : incoming.body.json,
    status: 0,
    performed: false,
  };
  desk.requests.push(logged);
  const result = decide(desk, incoming, matched, logged);
  logged.status = result.kind === "reply" ? result.status : result.kind;
  if (result.kind === "reply")
    desk.invalid.note(result.status, result.headers["x-ratelimit-scope"] === "shared");
  return result;
}

function decide(
  desk: Desk,
  incoming: Incoming,
  matched: ReturnType<typeof matchRoute>,
  logged: Logged,
): Reply {
  const { world } = desk;
  const { method, path, query, authorization } = incoming;
  // What the ban looks like is from memory: a page, not JSON.
  if (desk.invalid.banned())
    return reply(429, "<html>error code: 1015</html>", { "retry-after": "600" });
  // A bot names itself (API reference, "User Agent"); the refusal is from memory.
  if (!/^DiscordBot \(/.test(incoming.userAgent ?? ""))
    return refused(new Refusal(403, 40333, "internal network error"));
  if (matched === undefined) {
    world.violations.push({ kind: "unknown-route", detail: `${method} ${path}` });
    return refused(refusals.unknownRoute());
  }
  const { route, params } = matched;
  const application = authenticate(world, authorization);
  if (route.token === "bot" && application === undefined) return refused(refusals.unauthorized());
  for (const key of query.keys())
    if (!(route.query ?? []).includes(key))
      world.violations.push({ kind: "unknown-field", detail: `${method} ${route.path}?${key}` });

  const verdict = desk.buckets.count(route, params, application?.id ?? "path");
  if (verdict.retryAfter !== undefined) {
    world.violations.push({ kind: "rate-limit", detail: `${method} ${path}: ${verdict.scope}` });
    return tooMany(verdict.retryAfter, verdict.scope ?? "user", verdict.headers);
  }
  const perform = (): Reply & { kind: "reply" } => {
    try {
      if (incoming.body instanceof Refusal) throw incoming.body;
      const { json, uploads } = incoming.body;
      const { hosts } = desk;
      const done: Answer = route.run({
        world,
        hosts,
        method,
        route: route.path,
        params,
        query,
        body: json ?? {},
        uploads,
        application,
      });
      logged.performed = true;
      return reply(done === undefined ? 204 : 200, done, verdict.headers);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      blame(world, `${method} ${route.path}`, error);
      return refused(error, verdict.headers);
    }
  };
  const fault = desk.faults.take(method, route.path, path);
  return fault === undefined ? perform() : suffer(fault, perform, verdict.headers);
}

function suffer(
  fault: Fault,
  perform: () => Reply & { kind: "reply" },
  headers: Record<string, string>,
): Reply {
  const plain = fault.status === undefined && fault.drop === undefined;
  const done = (fault.performed ?? plain) ? perform() : undefined;
  if (fault.drop === "hang") return { kind: "hang" };
  if (fault.drop === true) return { kind: "drop" };
  const delayMs = fault.delayMs ?? 0;
  if (fault.status === 429) {
    const bare = fault.retryAfter === 0;
    return bare
      ? { ...reply(429, { message: "You are being rate limited." }), delayMs }
      : { ...tooMany(fault.retryAfter ?? 0.05, fault.scope ?? "user", headers), delayMs };
  }
  if (fault.status !== undefined)
    return { ...reply(fault.status, { message: `${fault.status}: Fault`, code: 0 }), delayMs };
  return { ...(done ?? perform()), delayMs };
}
