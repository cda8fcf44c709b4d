import { randomBytes } from "node:crypto";
import type { GatewaySendPayload } from "discord-api-types/v10";
import type { WebSocket } from "ws";
import type { Application } from "../world.ts";

export type Dispatched = {
  readonly op: 0;
  readonly t: string;
  readonly s: number;
  readonly d: object;
};

/** What a bot has identified for: it outlives its socket, so that it can be resumed. */
export type Session = {
  readonly id: string;
  readonly application: Application;
  /** [which, of how many] */
  readonly shard: readonly [number, number];
  readonly intents: number;
  sequence: number;
  /** Everything sent, for replay; the oldest are let go. */
  sent: Dispatched[];
  connection: Connection | undefined;
  /** When its socket went, in the service's time. */
  lostAt: number | undefined;
};

export type Connection = {
  readonly socket: WebSocket;
  session: Session | undefined;
  /** Real ms of the last heartbeat or the hello. */
  heartbeatAt: number;
  stopTimers: () => void;
  /** Real ms of what the client sent lately. */
  sends: number[];
  /** Closed from this side: the session stays to be resumed, whatever the code. */
  closedHere: boolean;
};

export function closeConnection(connection: Connection, code: number, why = ""): void {
  connection.closedHere = true;
  connection.socket.close(code, why);
}

export type Sent = Pick<GatewaySendPayload, "op"> & { readonly d: unknown };

/** How much is kept for replay. */
const KEPT = 2000;

export const createSession = (
  application: Application,
  shard: readonly [number, number],
  intents: number,
): Session => ({
  id: randomBytes(16).toString("hex"),
  application,
  shard,
  intents,
  sequence: 0,
  sent: [],
  connection: undefined,
  lostAt: undefined,
});

export function sendTo(connection: Connection, payload: object): void {
  if (connection.socket.readyState === connection.socket.OPEN)
    connection.socket.send(JSON.stringify(payload));
}

/** Numbers an event, keeps it, and sends it if a socket is there. */
export function dispatch(session: Session, t: string, d: object): void {
  session.sequence += 1;
  const payload: Dispatched = { op: 0, t, s: session.sequence, d };
  session.sent.push(payload);
  if (session.sent.length > 2 * KEPT) session.sent = session.sent.slice(-KEPT);
  if (session.connection !== undefined) sendTo(session.connection, payload);
}

/** What came after `sequence`, or nothing when some of it was let go. */
export function missedSince(session: Session, sequence: number): Dispatched[] | undefined {
  const missed = session.sent.filter(({ s }) => s > sequence);
  return missed.length === session.sequence - sequence ? missed : undefined;
}
