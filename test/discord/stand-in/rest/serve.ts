import type { IncomingMessage, RequestListener, ServerResponse } from "node:http";
import { answer, type Desk, type Reply } from "./answer.ts";
import { readBody } from "./read-body.ts";
import { Refusal } from "./refusal.ts";

const PREFIX = "/api/v10";

export type Traffic = {
  /** Requests under way. */
  open: number;
  /** When something last went over the wire, in real ms. */
  last: number;
};

/** Serves REST under /api/v10, and attachments by their address. */
export function serveRest(desk: Desk, traffic: Traffic): RequestListener {
  return (request, response) => {
    traffic.open += 1;
    traffic.last = performance.now();
    response.once("close", () => {
      traffic.open -= 1;
      traffic.last = performance.now();
    });
    void take(desk, request, response).catch((error: unknown) => {
      desk.world.violations.push({ kind: "stand-in-broke", detail: String(error) });
      response.destroy();
    });
  };
}

async function take(desk: Desk, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const url = new URL(request.url ?? "/", "http://stand-in.invalid");
  if (url.pathname.startsWith("/attachments/")) {
    sendAttachment(desk, url.pathname.split("/")[2] ?? "", response);
    return;
  }
  const body = await readBody(request).catch((error: unknown) => {
    if (error instanceof Refusal) return error;
    throw error;
  });
  const known = url.pathname.startsWith(`${PREFIX}/`);
  const reply = answer(desk, {
    method: request.method ?? "GET",
    path: known ? url.pathname.slice(PREFIX.length) : url.pathname,
    query: url.searchParams,
    authorization: request.headers.authorization,
    userAgent: request.headers["user-agent"],
    body,
  });
  await send(desk, reply, response);
}

async function send(desk: Desk, reply: Reply, response: ServerResponse): Promise<void> {
  if (reply.kind === "hang") return;
  if (reply.kind === "drop") {
    response.destroy();
    return;
  }
  if (reply.delayMs > 0)
    await new Promise<void>((done) => {
      const stop = desk.pace.setTimer(reply.delayMs, done);
      response.once("close", () => {
        stop();
        done();
      });
    });
  const { status, body } = reply;
  response.writeHead(status, {
    ...reply.headers,
    date: new Date(desk.world.now()).toUTCString(),
    ...(body === undefined
      ? {}
      : { "content-type": typeof body === "string" ? "text/html" : "application/json" }),
  });
  response.end(body === undefined || typeof body === "string" ? body : JSON.stringify(body));
}

function sendAttachment(desk: Desk, id: string, response: ServerResponse): void {
  for (const channel of desk.world.channels.values())
    for (const { said } of channel.messages)
      for (const attachment of said.attachments) {
        if (attachment.id !== id) continue;
        response.writeHead(200, { "content-type": attachment.contentType });
        response.end(attachment.bytes);
        return;
      }
  response.writeHead(404).end();
}
