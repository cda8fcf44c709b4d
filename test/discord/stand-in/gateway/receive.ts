import { GatewayIntentBits, GatewayOpcodes as Op } from "discord-api-types/v10";
import { z } from "zod";
import type { Hosts } from "../views/message.ts";
import { memberView } from "../views/user.ts";
import type { World } from "../world.ts";
import { checkIdentify, identify, resume } from "./identify.ts";
import {
  type Connection,
  closeConnection,
  createSession,
  dispatch,
  missedSince,
  type Sent,
  type Session,
  sendTo,
} from "./session.ts";
import { welcome } from "./welcome.ts";

export type Gateway = {
  readonly world: World;
  readonly hosts: Hosts;
  readonly sessions: Map<string, Session>;
  /** Every identify, by real ms, accepted or not. */
  readonly identifies: Identified[];
  /** Real ms between identifies of one rate limit key. */
  readonly spacingMs: number;
  /** Real ms of the window of 120 sends. */
  readonly sendWindowMs: number;
  /** Heartbeats go unanswered, as on a dead line. */
  deaf: boolean;
  readonly monotonic: () => number;
};

export type Identified = {
  readonly shard: readonly [number, number];
  readonly at: number;
  readonly accepted: boolean;
};

/** A session without a socket can be resumed for so long: "a few minutes" (Gateway, "Disconnecting"). */
const RESUMABLE_MS = 5 * 60_000;
/** Sends in 60 s, heartbeats not counted (Gateway, "Rate Limiting"). */
const SENDS = 120;
/** The largest payload (Gateway, "Sending Events"). */
const LARGEST = 4096;

const payload = z.object({ op: z.int(), d: z.unknown() });

function parse(raw: string): Sent | undefined {
  try {
    const read = payload.safeParse(JSON.parse(raw));
    return read.success ? (read.data as Sent) : undefined;
  } catch {
    return undefined;
  }
}

/** Takes one payload of the client; the codes are "Gateway Close Event Codes". */
export function receive(gateway: Gateway, connection: Connection, raw: string): void {
  const close = (code: number, why: string): void => {
    if (code !== 4003 && code !== 4004 && code !== 4014)
      gateway.world.violations.push({ kind: `close-${code}`, detail: why });
    closeConnection(connection, code, why.slice(0, 100));
  };
  const sent = Buffer.byteLength(raw) > LARGEST ? undefined : parse(raw);
  if (sent === undefined) {
    close(4002, "Error while decoding payload.");
    return;
  }
  if (sent.op === Op.Heartbeat) {
    connection.heartbeatAt = gateway.monotonic();
    if (!gateway.deaf) sendTo(connection, { op: Op.HeartbeatAck });
    return;
  }
  const now = gateway.monotonic();
  connection.sends = connection.sends.filter((at) => now - at < gateway.sendWindowMs);
  connection.sends.push(now);
  if (connection.sends.length > SENDS) {
    close(4008, "You are being rate limited.");
    return;
  }
  switch (sent.op) {
    case Op.Identify:
      takeIdentify(gateway, connection, sent.d, close);
      return;
    case Op.Resume:
      takeResume(gateway, connection, sent.d, close);
      return;
    case Op.PresenceUpdate:
      if (connection.session === undefined) close(4003, "Not authenticated.");
      return;
    case Op.RequestGuildMembers:
      if (connection.session === undefined) {
        close(4003, "Not authenticated.");
        return;
      }
      takeMembersRequest(gateway, connection.session, sent.d, close);
      return;
    default:
      close(4001, `Unknown opcode ${sent.op}.`);
      return;
  }
}

type Close = (code: number, why: string) => void;

function takeIdentify(gateway: Gateway, connection: Connection, d: unknown, close: Close): void {
  if (connection.session !== undefined) {
    close(4005, "Already authenticated.");
    return;
  }
  const read = identify.safeParse(d);
  if (!read.success) {
    close(4002, `Identify: ${z.prettifyError(read.error)}`);
    return;
  }
  const checked = checkIdentify(gateway.world, read.data);
  const shard = read.data.shard ?? ([0, 1] as const);
  if ("close" in checked) {
    gateway.identifies.push({ shard, at: gateway.monotonic(), accepted: false });
    close(checked.close, "Identify refused.");
    return;
  }
  const { application } = checked;
  const key = (one: readonly [number, number]): number => one[0] % application.maxConcurrency;
  const last = gateway.identifies.findLast((one) => one.accepted && key(one.shard) === key(shard));
  const early = last !== undefined && gateway.monotonic() - last.at < gateway.spacingMs;
  gateway.identifies.push({ shard, at: gateway.monotonic(), accepted: !early });
  if (early) {
    gateway.world.violations.push({ kind: "identify-spacing", detail: shard.join(" of ") });
    sendTo(connection, { op: Op.InvalidSession, d: false });
    return;
  }
  application.sessionStarts += 1;
  const session = createSession(application, shard, read.data.intents);
  gateway.sessions.set(session.id, session);
  bind(session, connection);
  welcome(gateway.world, gateway.hosts, session);
}

function bind(session: Session, connection: Connection): void {
  session.connection = connection;
  session.lostAt = undefined;
  connection.session = session;
}

/** Replays what was missed and closes it with Resumed (Gateway, "Resuming"). */
function takeResume(gateway: Gateway, connection: Connection, d: unknown, close: Close): void {
  if (connection.session !== undefined) {
    close(4005, "Already authenticated.");
    return;
  }
  const read = resume.safeParse(d);
  if (!read.success) {
    close(4002, "Resume unreadable.");
    return;
  }
  const { token, session_id, seq } = read.data;
  const application = gateway.world.applications.get(token);
  if (application === undefined) {
    close(4004, "Authentication failed.");
    return;
  }
  const session = gateway.sessions.get(session_id);
  const gone = gateway.world.now() - (session?.lostAt ?? gateway.world.now()) > RESUMABLE_MS;
  if (session === undefined || session.application !== application || gone) {
    gateway.sessions.delete(session_id);
    sendTo(connection, { op: Op.InvalidSession, d: false });
    return;
  }
  if (seq > session.sequence) {
    close(4007, "Invalid seq.");
    return;
  }
  const missed = missedSince(session, seq);
  if (missed === undefined) {
    gateway.sessions.delete(session_id);
    sendTo(connection, { op: Op.InvalidSession, d: false });
    return;
  }
  session.connection?.socket.terminate();
  bind(session, connection);
  for (const event of missed) sendTo(connection, event);
  dispatch(session, "RESUMED", {});
}

const membersRequest = z.strictObject({
  guild_id: z.string(),
  query: z.string().optional(),
  limit: z.int().min(0).optional(),
  user_ids: z.union([z.string(), z.array(z.string()).max(100)]).optional(),
  presences: z.boolean().optional(),
  nonce: z.string().max(32).optional(),
});

/** Request Guild Members: all of them needs the members intent. */
function takeMembersRequest(gateway: Gateway, session: Session, d: unknown, close: Close): void {
  const read = membersRequest.safeParse(d);
  if (!read.success) {
    close(4002, "Members request unreadable.");
    return;
  }
  const { guild_id, query, limit = 0, user_ids, nonce } = read.data;
  const all = query === "" && limit === 0;
  if (all && (session.intents & GatewayIntentBits.GuildMembers) === 0) {
    close(4014, "Members intent needed.");
    return;
  }
  const ids = user_ids === undefined ? undefined : [user_ids].flat();
  const guild = gateway.world.guilds.get(guild_id);
  const members = [...(guild?.members.values() ?? [])].filter(
    ({ user, nick }) =>
      ids?.includes(user.id) ??
      (nick ?? user.name).toLowerCase().startsWith((query ?? "").toLowerCase()),
  );
  dispatch(session, "GUILD_MEMBERS_CHUNK", {
    guild_id,
    members: (limit > 0 ? members.slice(0, limit) : members).map(memberView),
    chunk_index: 0,
    chunk_count: 1,
    not_found: (ids ?? []).filter((id) => guild?.members.has(id) !== true),
    ...(nonce === undefined ? {} : { nonce }),
  });
}
