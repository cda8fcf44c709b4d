import { open } from "./rtp.ts";
import type { Hall } from "./voice-server.ts";

const DISCOVERY_LENGTH = 74;
/** Sent now and then so that the way back stays open. */
const KEEP_ALIVE_LENGTH = 8;
/** Samples of a frame of 20 ms, by which timestamps count. */
const FRAME = 960;
const SILENCE = Buffer.of(0xf8, 0xff, 0xfe);

type From = { readonly address: string; readonly port: number };

/** A UDP packet of a client: the question for its own address, a sign of life, or sound. */
export function receiveDatagram(
  bytes: Buffer,
  from: From,
  hall: Hall,
  send: (bytes: Buffer, port: number) => void,
) {
  if (bytes.length === KEEP_ALIVE_LENGTH) return;
  if (bytes.length === DISCOVERY_LENGTH && bytes.readUInt16BE(0) === 1)
    return discover(bytes, from, hall, send);
  takeSound(bytes, hall);
}

/** The 74 bytes of "IP Discovery". */
function discover(
  bytes: Buffer,
  { address, port }: From,
  hall: Hall,
  send: (bytes: Buffer, port: number) => void,
): void {
  const { bot, faults, violations } = hall;
  if (bytes.readUInt16BE(2) !== 70 || bytes.readUInt32BE(4) !== bot?.ssrc) {
    violations.push({ kind: "voice-discovery", detail: bytes.subarray(0, 8).toString("hex") });
    return;
  }
  if (faults.lostDiscoveries > 0) {
    faults.lostDiscoveries -= 1;
    return;
  }
  bot.address = { ip: address, port };
  const answer = Buffer.alloc(DISCOVERY_LENGTH);
  answer.writeUInt16BE(2, 0);
  answer.writeUInt16BE(70, 2);
  answer.writeUInt32BE(bot.ssrc, 4);
  answer.write(address, 8, "utf8");
  answer.writeUInt16BE(port, DISCOVERY_LENGTH - 2);
  send(answer, port);
}

function takeSound(bytes: Buffer, hall: Hall) {
  const { bot, violations, group } = hall;
  const report = (detail: string): void => void violations.push({ kind: "voice-sound", detail });
  // What was on its way when the session ended.
  if (bot === undefined) return;
  const { mode, last, ticket } = bot;
  if (mode === undefined) return report("sound before a way of encryption was chosen");
  try {
    const packet = open(bytes, mode, bot.key);
    if (packet.ssrc !== bot.ssrc) return report("as somebody else");
    if (last !== undefined) {
      if (packet.sequence !== ((last.sequence + 1) & 0xffff)) report("out of sequence");
      if (packet.timestamp !== (last.timestamp + FRAME) >>> 0) report("timestamps do not follow");
      if (packet.counter <= last.counter) report("a nonce used twice");
    }
    bot.last = packet;
    const { payload } = packet;
    const isSilence = payload.equals(SILENCE);
    const others = group.members.some((one) => one !== ticket.user);
    const isEncrypted = payload.length > 2 && payload.readUInt16BE(payload.length - 2) === 0xfafa;
    const mustBe = hall.version === 1 && others && group.members.includes(ticket.user);
    if (mustBe && !isSilence && !isEncrypted) return report("not encrypted end to end");
    const opus = isSilence || !mustBe ? payload : group.decrypt(ticket.user, payload);
    hall.heard.push({ opus, isSilence, at: performance.now(), timestamp: packet.timestamp });
  } catch (error) {
    report(error instanceof Error ? error.message : String(error));
  }
}
