import type { z } from "zod";
import { readForm } from "../limits/form.ts";
import type { Upload } from "../messages/files.ts";
import type { Hosts } from "../views/message.ts";
import type { Application, World } from "../world.ts";
import { type Refusal, refusals } from "./refusal.ts";

/** One request as a route sees it. */
export type Call = {
  readonly world: World;
  readonly hosts: Hosts;
  readonly method: string;
  /** The template, as "/channels/:channel/messages". */
  readonly route: string;
  readonly params: Readonly<Record<string, string>>;
  readonly query: URLSearchParams;
  readonly body: unknown;
  readonly uploads: readonly Upload[];
  /** Whose token it carries; a route that needs one asks `caller`. */
  readonly application: Application | undefined;
};

/** What a route answers: nothing is 204, an object 200. */
export type Answer = object | undefined;

export type Route = {
  readonly method: "GET" | "POST" | "PUT" | "PATCH" | "DELETE";
  readonly path: string;
  /** Whether a bot's token is needed; callbacks and webhooks carry their own in the path. */
  readonly token: "bot" | "path";
  /** Requests in a window of so many ms, for each channel, guild or webhook of the path. */
  readonly bucket: { readonly limit: number; readonly windowMs: number };
  /** Query parameters that are known. */
  readonly query?: readonly string[];
  readonly run: (call: Call) => Answer;
};

export function caller(call: Call): Application {
  if (call.application === undefined) throw refusals.unauthorized();
  return call.application;
}

/**
 * Reads the body by a schema; a field the service does not know is held against the bot.
 * @throws Refusal 50035
 */
export const formOf = <T>(call: Call, schema: z.ZodType<T>): T =>
  readForm(schema, call.body, (field) =>
    call.world.violations.push({
      kind: "unknown-field",
      detail: `${call.method} ${call.route}: ${field}`,
    }),
  );

/** Reads the query by a schema. @throws Refusal 50035 */
export const queryOf = <T>(call: Call, schema: z.ZodType<T>): T =>
  readForm(schema, Object.fromEntries(call.query), () => undefined);

/** What no careful bot sends: a bad form, nothing to say, too much, broken JSON. */
const CARELESS = new Set([30015, 40005, 50006, 50008, 50035, 50109]);

/** Holds a refusal against the bot, unless something may have changed behind its back. */
export function blame(world: World, where: string, refusal: Refusal): void {
  if (!CARELESS.has(refusal.code) || refusal.raced) return;
  const detail = `${where}: ${refusal.code} ${JSON.stringify(refusal.errors ?? refusal.message)}`;
  world.violations.push({ kind: "invalid-form", detail });
}
