import { GatewayOpcodes as Op } from "discord-api-types/v10";
import { z } from "zod";
import type { Close, Gateway } from "./gateway.ts";
import { takeMembersRequest } from "./members-request.ts";
import { type Connection, closeConnection, type Sent, sendTo } from "./session.ts";
import { takeIdentify, takeResume } from "./start-session.ts";
import { takeVoiceState } from "./voice-state.ts";

/** Sends in 60 s on one connection (Gateway, "Rate Limiting"). */
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
  const close: Close = (code, why) => {
    if (code !== 4003 && code !== 4004 && code !== 4014)
      gateway.world.violations.push({ kind: `close-${code}`, detail: why });
    closeConnection(connection, code, why.slice(0, 100));
  };
  const sent = Buffer.byteLength(raw) > LARGEST ? undefined : parse(raw);
  if (sent === undefined) {
    close(4002, "Error while decoding payload.");
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
    case Op.Heartbeat:
      connection.heartbeatAt = now;
      if (!gateway.deaf) sendTo(connection, { op: Op.HeartbeatAck });
      return;
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
    case Op.VoiceStateUpdate:
      if (connection.session === undefined) close(4003, "Not authenticated.");
      else takeVoiceState(gateway, connection.session, sent.d, close);
      return;
    default:
      close(4001, `Unknown opcode ${sent.op}.`);
      return;
  }
}
