import { GatewayOpcodes as Op } from "discord-api-types/v10";
import { z } from "zod";
import type { Close, Gateway } from "./gateway.ts";
import { checkIdentify, identify, resume } from "./identify.ts";
import {
  type Connection,
  createSession,
  dispatch,
  missedSince,
  type Session,
  sendTo,
} from "./session.ts";
import { welcome } from "./welcome.ts";

/** A session without a socket can be resumed for so long: "a few minutes" (Gateway, "Disconnecting"). */
const RESUMABLE_MS = 5 * 60_000;

export function takeIdentify(
  gateway: Gateway,
  connection: Connection,
  d: unknown,
  close: Close,
): void {
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
  for (const [id, { lostAt }] of gateway.sessions)
    if (gateway.world.now() - (lostAt ?? gateway.world.now()) > RESUMABLE_MS)
      gateway.sessions.delete(id);
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
export function takeResume(
  gateway: Gateway,
  connection: Connection,
  d: unknown,
  close: Close,
): void {
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
