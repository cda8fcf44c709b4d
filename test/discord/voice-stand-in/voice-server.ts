import { randomBytes } from "node:crypto";
import { createSocket } from "node:dgram";
import { once } from "node:events";
import { createServer } from "node:https";
import type { AddressInfo } from "node:net";
import { WebSocketServer } from "ws";
import type { Seat, VoiceHost } from "../stand-in/voice-states.ts";
import type { Violation } from "../stand-in/world.ts";
import type { BotSession, Ticket } from "./bot-session.ts";
import { CallGroup, type Committer } from "./call-group.ts";
import type { Certificate } from "./certificate.ts";
import { createMouthOf, type Heard, type PersonInCall } from "./person-in-call.ts";
import { receiveDatagram } from "./receive-datagram.ts";
import { AES, type Mode, XCHACHA } from "./rtp.ts";
import { welcomeSocket } from "./welcome-socket.ts";

export type VoiceServerSpec = {
  readonly certificate: Certificate;
  /** The ways of encryption it offers; xchacha20-poly1305 is always among them. */
  readonly aes?: boolean;
  /** End-to-end encryption: version 1 as the service demands, or 0 for none. */
  readonly version?: 0 | 1;
  readonly committer?: Committer;
  /** What Hello asks for, real ms. */
  readonly heartbeatMs?: number;
};

/** What goes wrong next, until told otherwise. */
export type VoiceFaults = {
  /** Nothing at all is said on the socket. */
  silent: boolean;
  /** The gateway sends nobody here: the join is never answered. */
  unanswered: boolean;
  /** Whoever identifies is turned away with this code. */
  refuse: number | undefined;
  /** So many requests for the own address get lost. */
  lostDiscoveries: number;
  /** Sound is sealed with another key than was told. */
  wrongKey: boolean;
  /** Sound is encrypted end to end with keys the bot does not have. */
  wrongEndToEnd: boolean;
};

/** One voice server, as its sessions and its sockets see it. */
export type Hall = {
  readonly faults: VoiceFaults;
  readonly violations: Violation[];
  readonly tickets: Map<string, Ticket>;
  readonly modes: readonly Mode[];
  readonly version: 0 | 1;
  readonly heartbeatMs: number;
  readonly people: Map<string, PersonInCall>;
  readonly heard: Heard[];
  readonly speaking: { readonly on: boolean; readonly at: number }[];
  readonly udp: { readonly port: number };
  group: CallGroup;
  bot: BotSession | undefined;
  nextSsrc: number;
  identified: number;
  resumed: number;
};

export type VoiceServer = VoiceHost & {
  /** "127.0.0.1:port", as the main gateway tells it. */
  readonly endpoint: string;
  readonly faults: VoiceFaults;
  /** Somebody is in the call from here on. */
  enter(user: string): PersonInCall;
  /** What the bot said, in order: Opus frames, decrypted. */
  readonly heard: readonly Heard[];
  readonly speaking: readonly { readonly on: boolean; readonly at: number }[];
  readonly group: CallGroup;
  /** The way of encryption the bot chose; undefined while it is not ready. */
  readonly mode: Mode | undefined;
  readonly identified: number;
  readonly resumed: number;
  readonly connected: boolean;
  /** Sends the bot something that no service sends: on its socket, or by UDP. */
  send(message: string | Buffer): void;
  sendDatagram(bytes: Buffer): void;
  /** Closes the bot's socket with a code; without one it just breaks. The session stays. */
  drop(code?: number): void;
  /** The session is over: a resume is refused with 4006. */
  forget(): void;
  readonly violations: readonly Violation[];
  close(): Promise<void>;
};

/** A strict voice server on 127.0.0.1: a secured socket, UDP, and the people of one call. */
export async function startVoiceServer(spec: VoiceServerSpec): Promise<VoiceServer> {
  const { certificate, aes = true, version = 1, committer = "people" } = spec;
  const violations: Violation[] = [];
  const report = (kind: string) => (detail: string) => void violations.push({ kind, detail });
  const udp = createSocket("udp4");
  udp.bind(0, "127.0.0.1");
  await once(udp, "listening");
  const server = createServer(certificate);
  const sockets = new WebSocketServer({ noServer: true });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;

  const hall: Hall = {
    faults: {
      silent: false,
      unanswered: false,
      refuse: undefined,
      lostDiscoveries: 0,
      wrongKey: false,
      wrongEndToEnd: false,
    },
    violations,
    tickets: new Map(),
    modes: aes ? [AES, XCHACHA] : [XCHACHA],
    version,
    heartbeatMs: spec.heartbeatMs ?? 13_750,
    people: new Map(),
    heard: [],
    speaking: [],
    udp: { port: udp.address().port },
    group: new CallGroup("0", committer, report("group")),
    bot: undefined,
    nextSsrc: 1000,
    identified: 0,
    resumed: 0,
  };

  server.on("upgrade", (request, duplex, head) => {
    const { searchParams } = new URL(request.url ?? "/", "https://stand-in.invalid");
    sockets.handleUpgrade(request, duplex, head, (socket) => {
      if (searchParams.get("v") === "8") return welcomeSocket(socket, hall);
      report("voice-version")(String(searchParams));
      socket.close(4016, "Unknown version");
    });
  });
  udp.on("message", (bytes, from) => receiveDatagram(bytes, from, hall, (b, p) => udp.send(b, p)));
  const mouthOf = createMouthOf(hall, (bytes, to) => udp.send(bytes, to.port, to.ip));
  let channel: string | undefined;

  return {
    endpoint: `127.0.0.1:${port}`,
    faults: hall.faults,
    seat({ guild, channel: wanted, user, session }: Seat) {
      if (hall.faults.unanswered) return undefined;
      if (channel !== wanted) {
        channel = wanted;
        hall.group = new CallGroup(wanted, committer, report("group"));
        if (version === 1) for (const one of hall.people.keys()) hall.group.enter(one);
      }
      const token = randomBytes(8).toString("hex");
      hall.tickets.set(token, { guild, channel: wanted, user, session, token });
      return { endpoint: `127.0.0.1:${port}`, token };
    },
    left(why) {
      const { bot } = hall;
      if (bot === undefined) return;
      hall.bot = undefined;
      hall.tickets.clear();
      if (version === 1) hall.group.leave(bot.ticket.user);
      if (why === "put out") bot.socket?.close(4014, "Disconnected.");
    },
    enter(user) {
      const person = mouthOf(user);
      hall.people.set(user, person);
      hall.bot?.json(11, { user_ids: [user] });
      if (version === 1) hall.group.enter(user);
      return person;
    },
    heard: hall.heard,
    speaking: hall.speaking,
    get group() {
      return hall.group;
    },
    get mode() {
      return hall.bot?.mode;
    },
    get identified() {
      return hall.identified;
    },
    get resumed() {
      return hall.resumed;
    },
    get connected() {
      return hall.bot?.socket?.readyState === 1;
    },
    send: (message) => hall.bot?.socket?.send(message),
    sendDatagram(bytes) {
      const address = hall.bot?.address;
      if (address !== undefined) udp.send(bytes, address.port, address.ip);
    },
    drop(code) {
      const socket = hall.bot?.socket;
      if (code === undefined) socket?.terminate();
      else socket?.close(code);
    },
    forget() {
      hall.bot = undefined;
    },
    violations,
    async close() {
      for (const socket of sockets.clients) socket.terminate();
      server.close();
      server.closeAllConnections();
      const closed = once(udp, "close");
      udp.close();
      await closed;
    },
  };
}
