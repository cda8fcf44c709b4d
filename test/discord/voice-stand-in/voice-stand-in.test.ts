import { createSocket } from "node:dgram";
import { once } from "node:events";
import { expect, test } from "vitest";
import { WebSocket } from "ws";
import { makeCertificate } from "./certificate.ts";
import { open, seal, XCHACHA } from "./rtp.ts";
import { startVoiceServer, type VoiceServer, type VoiceServerSpec } from "./voice-server.ts";

const GUILD = "400000000000000000";
const CHANNEL = "300000000000000000";
const BOT = "100000000000000000";

type Raw = {
  readonly server: VoiceServer;
  readonly token: string;
  /** A socket, its Hello heard. */
  connect(query?: string): Promise<WebSocket>;
  /** Sends one message and tells the close code that it earns. */
  closes(message: object | string): Promise<number>;
};

async function withServer(
  play: (raw: Raw) => Promise<void>,
  spec: Partial<VoiceServerSpec> = {},
): Promise<void> {
  const certificate = await makeCertificate();
  const server = await startVoiceServer({ certificate, ...spec });
  const { cert } = certificate;
  const seat = server.seat({ guild: GUILD, channel: CHANNEL, user: BOT, session: "s" });
  const connect = async (query = "?v=8"): Promise<WebSocket> => {
    const socket = new WebSocket(`wss://${server.endpoint}${query}`, { ca: cert });
    await Promise.race([once(socket, "message"), once(socket, "close")]);
    return socket;
  };
  try {
    await play({
      server,
      token: seat?.token ?? "",
      connect,
      async closes(message) {
        const socket = await connect();
        socket.send(typeof message === "string" ? message : JSON.stringify(message));
        const [code] = await once(socket, "close");
        return code;
      },
    });
  } finally {
    await server.close();
  }
}

const identify = (token: string, more: object = {}) => ({
  op: 0,
  d: {
    server_id: GUILD,
    user_id: BOT,
    session_id: "s",
    token,
    max_dave_protocol_version: 1,
    ...more,
  },
});

test("a client is turned away as the service does it", () =>
  withServer(async ({ closes, connect, token, server }) => {
    expect(await closes("not json")).toBe(4002);
    expect(await closes({ op: 99, d: {} })).toBe(4002);
    expect(await closes({ op: 5, d: { speaking: 1, delay: 0, ssrc: 1 } })).toBe(4003);
    expect(await closes(identify("another"))).toBe(4004);
    expect(await closes(identify(token, { session_id: "other" }))).toBe(4006);
    expect(await closes(identify(token, { server_id: "1" }))).toBe(4011);
    expect(await closes(identify(token, { max_dave_protocol_version: 0 }))).toBe(4017);
    const old = await connect("?v=4");
    expect(old.readyState).toBeGreaterThanOrEqual(WebSocket.CLOSING);
    expect(server.violations.map(({ kind }) => kind)).toContain("voice-version");
  }));

test("a socket without heartbeats is closed", () =>
  withServer(
    async ({ connect }) => {
      const [code] = await once(await connect(), "close");
      expect(code).toBe(4009);
    },
    { heartbeatMs: 30 },
  ));

test("the own address is told in 74 bytes, and nothing may be chosen that was not offered", () =>
  withServer(
    async ({ connect, token, server }) => {
      const socket = await connect();
      socket.send(JSON.stringify(identify(token)));
      const [data] = await once(socket, "message");
      const ready = JSON.parse(String(data));
      expect(ready).toMatchObject({ op: 2, seq: 1, d: { modes: [XCHACHA] } });
      const udp = createSocket("udp4");
      const question = Buffer.alloc(74);
      question.writeUInt16BE(1, 0);
      question.writeUInt16BE(70, 2);
      question.writeUInt32BE(ready.d.ssrc, 4);
      udp.send(question, ready.d.port, ready.d.ip);
      const [answer] = (await once(udp, "message")) as [Buffer];
      expect(answer).toHaveLength(74);
      expect(answer.readUInt16BE(72)).toBe(udp.address().port);
      const data_ = { address: "127.0.0.1", port: udp.address().port };
      const choice = { ...data_, mode: "aead_aes256_gcm_rtpsize" };
      socket.send(JSON.stringify({ op: 1, d: { protocol: "udp", data: choice } }));
      const [code] = await once(socket, "close");
      expect(code).toBe(4016);
      udp.close();
      expect(server.mode).toBeUndefined();
    },
    { aes: false },
  ));

test("a packet opens with its own key alone", () => {
  const key = new Uint8Array(32).fill(7);
  const packet = { sequence: 1, timestamp: 960, ssrc: 5, counter: 1, payload: Buffer.from("opus") };
  const sealed = seal(packet, XCHACHA, key);
  expect(sealed.readUInt16BE(12)).toBe(0xbede);
  expect(() => open(sealed, XCHACHA, key)).toThrow("first byte 90");
  const plain = Buffer.concat([Buffer.of(0x80, 120), sealed.subarray(2)]);
  expect(() => open(plain, XCHACHA, key)).toThrow();
});
