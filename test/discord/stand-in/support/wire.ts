import { once } from "node:events";
import { GatewayOpcodes as Op } from "discord-api-types/v10";
import { WebSocket } from "ws";
import type { StandIn } from "../start.ts";

export type Frame = {
  readonly op: number;
  readonly t?: string;
  readonly s?: number;
  // biome-ignore lint/suspicious/noExplicitAny: payloads are looked at by the tests' own expectations
  readonly d?: any;
};

/** A gateway connection by hand. */
export type Wire = {
  readonly frames: readonly Frame[];
  send(op: number, d?: unknown): void;
  sendText(text: string): void;
  /** Waits for a frame that fits, among those that came or come. */
  until(fits: (frame: Frame) => boolean): Promise<Frame>;
  dispatched(t: string): Promise<Frame>;
  /** The code it was closed with. */
  readonly closed: Promise<number>;
  close(code?: number): Promise<void>;
};

const WAIT_MS = 5000;

export async function openWire(discord: StandIn, query = "?v=10&encoding=json"): Promise<Wire> {
  const url = discord.apiUrl.replace("http", "ws").replace("/api", "/gateway");
  const socket = new WebSocket(`${url}${query}`);
  const frames: Frame[] = [];
  socket.on("message", (data) => frames.push(JSON.parse(String(data))));
  const closed = once(socket, "close").then(([code]) => Number(code));
  await once(socket, "open");
  const wire: Wire = {
    frames,
    send: (op, d = null) => socket.send(JSON.stringify({ op, d })),
    sendText: (text) => socket.send(text),
    async until(fits) {
      const end = performance.now() + WAIT_MS;
      for (;;) {
        const found = frames.find(fits);
        if (found !== undefined) return found;
        if (performance.now() > end) throw new Error("The frame does not come");
        await new Promise((resolve) => setTimeout(resolve, 2));
      }
    },
    dispatched: (t) => wire.until((frame) => frame.t === t),
    closed,
    async close(code) {
      if (code === undefined) socket.terminate();
      else socket.close(code);
      await closed;
    },
  };
  return wire;
}

export type IdentifyMore = {
  readonly intents?: number;
  readonly shard?: readonly [number, number];
};

export const identifyPayload = (token: string, more: IdentifyMore = {}): object => ({
  token,
  intents: 513,
  properties: { os: "linux", browser: "test", device: "test" },
  ...more,
});

/** A wire that has identified and is ready. */
export async function readyWire(
  discord: StandIn,
  token: string,
  more: IdentifyMore = {},
): Promise<Wire> {
  const wire = await openWire(discord);
  wire.send(Op.Identify, identifyPayload(token, more));
  await wire.dispatched("READY");
  return wire;
}
