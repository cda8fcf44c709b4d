import { randomBytes } from "node:crypto";
import type { WebSocket } from "ws";
import type { Mode } from "./rtp.ts";

/** Whom the main gateway sent to this server, and with what to show at the door. */
export type Ticket = {
  readonly guild: string;
  readonly channel: string;
  readonly user: string;
  readonly session: string;
  readonly token: string;
};

type Told = { readonly seq: number; readonly message: string | Buffer };

/** A bot's session with the voice server; it outlives its socket, so that it can be resumed. */
export class BotSession {
  readonly ticket: Ticket;
  readonly ssrc: number;
  readonly key = randomBytes(32);
  /** "ready" once a way of encryption was chosen; until then nothing can be heard or said. */
  mode: Mode | undefined;
  /** Where it is reached by UDP, once it asked for that. */
  address: { readonly ip: string; readonly port: number } | undefined;
  socket: WebSocket | undefined;
  speaking = false;
  /** The last of its packets, which the next must follow. */
  last: { sequence: number; timestamp: number; counter: number } | undefined;
  #told: Told[] = [];
  #seq = 0;

  constructor(ticket: Ticket, ssrc: number, socket: WebSocket) {
    this.ticket = ticket;
    this.ssrc = ssrc;
    this.socket = socket;
  }

  /** A message with a sequence number, to be told again after a resume. */
  json(op: number, d: object): void {
    this.#seq += 1;
    this.#tell(JSON.stringify({ op, d, seq: this.#seq }));
  }

  binary(op: number, payload: Buffer): void {
    this.#seq += 1;
    const head = Buffer.alloc(3);
    head.writeUInt16BE(this.#seq);
    head.writeUInt8(op, 2);
    this.#tell(Buffer.concat([head, payload]));
  }

  #tell(message: string | Buffer): void {
    this.#told.push({ seq: this.#seq, message });
    if (this.socket?.readyState === 1) this.socket.send(message);
  }

  /** What came after `acknowledged` is told again on a new socket. */
  resume(socket: WebSocket, acknowledged: number): void {
    this.socket = socket;
    socket.send(JSON.stringify({ op: 9, d: null }));
    for (const { seq, message } of this.#told) if (seq > acknowledged) socket.send(message);
  }
}
