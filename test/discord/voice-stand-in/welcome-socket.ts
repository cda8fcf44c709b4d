import type { RawData, WebSocket } from "ws";
import { BotSession } from "./bot-session.ts";
import { type ClientMessage, clientMessage } from "./messages.ts";
import type { Hall } from "./voice-server.ts";

/** How much later than asked a heartbeat may come. */
const TOLERANCE = 1.5;

/** Opcodes that come as binary. */
const KEY_PACKAGE = 26;
const COMMIT_WELCOME = 28;

type Refuse = (code: number, why: string) => void;

/** One socket, from Hello on. Close codes are those of "Voice Close Event Codes" (from memory). */
export function welcomeSocket(socket: WebSocket, hall: Hall) {
  if (hall.faults.silent) return;
  const refuse: Refuse = (code, why) => {
    if (code < 4006 || code === 4012) {
      hall.violations.push({ kind: `voice-close-${code}`, detail: why });
    }
    socket.close(code, why.slice(0, 100));
  };
  let beat = performance.now();
  const watch = setInterval(() => {
    if (performance.now() - beat > hall.heartbeatMs * TOLERANCE) refuse(4009, "Session timed out");
  }, hall.heartbeatMs / 2);
  socket.on("close", () => clearInterval(watch));
  socket.on("error", () => socket.terminate());
  socket.on("message", (data: RawData, isBinary: boolean) => {
    try {
      if (isBinary) return takeBinary(Buffer.from(data as Buffer), socket, hall, refuse);
      const read = clientMessage.safeParse(JSON.parse(String(data)));
      if (!read.success) return refuse(4002, `Unreadable: ${String(data)}`);
      if (read.data.op === 3) beat = performance.now();
      take(read.data, socket, hall, refuse);
    } catch (error) {
      hall.violations.push({ kind: "voice-broken", detail: String(error) });
      refuse(4002, String(error));
    }
  });
  socket.send(JSON.stringify({ op: 8, d: { v: 8, heartbeat_interval: hall.heartbeatMs } }));
}

const isHere = ({ bot }: Hall, socket: WebSocket): boolean => bot?.socket === socket;

function take(message: ClientMessage, socket: WebSocket, hall: Hall, refuse: Refuse) {
  const { bot } = hall;
  switch (message.op) {
    case 0:
      return identify(message.d, socket, hall, refuse);
    case 7:
      return resume(message.d, socket, hall, refuse);
    case 3:
      return socket.send(JSON.stringify({ op: 6, d: { t: message.d.t } }));
    default:
      if (bot === undefined || !isHere(hall, socket)) return refuse(4003, "Not authenticated");
  }
  switch (message.op) {
    case 1: {
      const { address, port, mode } = message.d.data;
      if (bot.address === undefined) return refuse(4012, "Own address not asked for");
      if (address !== bot.address.ip || port !== bot.address.port)
        return refuse(4012, "Another address than was told");
      if (!hall.modes.includes(mode)) return refuse(4016, `Mode ${mode} was not offered`);
      bot.mode = mode;
      bot.json(4, {
        mode,
        secret_key: [...bot.key],
        dave_protocol_version: hall.version,
        audio_codec: "opus",
        video_codec: "H264",
        media_session_id: "stand-in",
      });
      if (hall.version === 1) hall.group.greet(bot.ticket.user, bot);
      return;
    }
    case 5:
      if (message.d.ssrc !== bot.ssrc) return refuse(4002, "Speaks as somebody else");
      bot.speaking = message.d.speaking !== 0;
      hall.speaking.push({ on: bot.speaking, at: performance.now() });
      return;
    case 23:
      return hall.group.takeReady(message.d.transition_id);
    case 31:
      return hall.group.takeInvalid();
  }
}

function identify(
  d: Extract<ClientMessage, { op: 0 }>["d"],
  socket: WebSocket,
  hall: Hall,
  refuse: Refuse,
) {
  hall.identified += 1;
  if (isHere(hall, socket)) return refuse(4005, "Already authenticated");
  const { refuse: code } = hall.faults;
  if (code !== undefined) return refuse(code, "Turned away");
  const ticket = hall.tickets.get(d.token);
  if (ticket === undefined) return refuse(4004, "Authentication failed");
  if (ticket.guild !== d.server_id) return refuse(4011, "Server not found");
  if (ticket.session !== d.session_id || ticket.user !== d.user_id)
    return refuse(4006, "Session no longer valid");
  if (d.max_dave_protocol_version < hall.version)
    return refuse(4017, "End-to-end encryption required");
  if (hall.bot !== undefined && hall.version === 1) hall.group.leave(ticket.user);
  const old = hall.bot?.socket;
  hall.nextSsrc += 1;
  const bot = new BotSession(ticket, hall.nextSsrc, socket);
  hall.bot = bot;
  old?.close(4006, "Another session took over");
  bot.json(2, { ssrc: bot.ssrc, ip: "127.0.0.1", port: hall.udp.port, modes: hall.modes });
  if (hall.people.size > 0) bot.json(11, { user_ids: [...hall.people.keys()] });
}

function resume(
  d: Extract<ClientMessage, { op: 7 }>["d"],
  socket: WebSocket,
  hall: Hall,
  refuse: Refuse,
) {
  const { bot } = hall;
  if (bot === undefined || bot.ticket.token !== d.token || bot.ticket.session !== d.session_id)
    return refuse(4006, "Session no longer valid");
  hall.resumed += 1;
  bot.speaking = false;
  bot.resume(socket, d.seq_ack);
}

function takeBinary(bytes: Buffer, socket: WebSocket, hall: Hall, refuse: Refuse) {
  if (!isHere(hall, socket)) return refuse(4003, "Not authenticated");
  const payload = bytes.subarray(1);
  switch (bytes[0]) {
    case KEY_PACKAGE:
      return hall.group.takeKeyPackage(payload);
    case COMMIT_WELCOME:
      return hall.group.takeCommit(payload);
    default:
      return refuse(4001, `Unknown binary opcode ${bytes[0]}`);
  }
}
