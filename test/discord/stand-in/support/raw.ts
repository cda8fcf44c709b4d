import type { StandIn } from "../start.ts";

export type RawReply = {
  readonly status: number;
  readonly headers: Headers;
  /** The parsed body, or undefined for none. */
  // biome-ignore lint/suspicious/noExplicitAny: bodies are looked at by the tests' own expectations
  readonly body: any;
};

export type RawCall = (
  method: string,
  path: string,
  body?: unknown,
  more?: { readonly token?: string | null; readonly agent?: string },
) => Promise<RawReply>;

/** Requests by hand, as any program could make them: a form goes as it is, the rest as JSON. */
export const rawCalls =
  (discord: StandIn, token: string): RawCall =>
  async (method, path, body, more = {}) => {
    const { agent = "DiscordBot (https://example.invalid, 1)" } = more;
    const bearer = more.token === undefined ? token : more.token;
    const form = body instanceof FormData;
    const response = await fetch(`${discord.apiUrl}/v10${path}`, {
      method,
      headers: {
        "user-agent": agent,
        ...(bearer === null ? {} : { authorization: `Bot ${bearer}` }),
        ...(body === undefined || form ? {} : { "content-type": "application/json" }),
      },
      ...(body === undefined
        ? {}
        : { body: form || typeof body === "string" ? body : JSON.stringify(body) }),
    });
    const text = await response.text();
    const json = response.headers.get("content-type")?.startsWith("application/json") === true;
    return {
      status: response.status,
      headers: response.headers,
      body: text === "" ? undefined : json ? JSON.parse(text) : text,
    };
  };
