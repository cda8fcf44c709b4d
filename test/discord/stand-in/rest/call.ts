import type { z } from "zod";
import { readForm } from "../limits/form.ts";
import type { Upload } from "../messages/files.ts";
import type { Hosts } from "../views/message.ts";
import type { Application, World } from "../world.ts";
import { Refusal, refusals } from "./refusal.ts";

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

/** Reads the body by a schema; what it refuses or does not know is held against the bot. */
export function formOf<T>(call: Call, schema: z.ZodType<T>): T {
  const where = `${call.method} ${call.route}`;
  try {
    return readForm(schema, call.body, (field) =>
      call.world.violations.push({ kind: "unknown-field", detail: `${where}: ${field}` }),
    );
  } catch (error) {
    if (error instanceof Refusal)
      call.world.violations.push({
        kind: "invalid-form",
        detail: `${where}: ${JSON.stringify(error.errors)}`,
      });
    throw error;
  }
}
