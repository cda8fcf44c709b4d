import { createCipheriv, createDecipheriv } from "node:crypto";
import { xchacha20poly1305 } from "@noble/ciphers/chacha.js";

/** Encryption of the way between a client and the voice server (Voice, "Transport Encryption"). */
export type Mode = "aead_xchacha20_poly1305_rtpsize" | "aead_aes256_gcm_rtpsize";

export const XCHACHA: Mode = "aead_xchacha20_poly1305_rtpsize";
export const AES: Mode = "aead_aes256_gcm_rtpsize";

const HEADER = 12;
const TAG = 16;
const COUNTER = 4;
const OPUS = 120;

export type Packet = {
  readonly sequence: number;
  readonly timestamp: number;
  readonly ssrc: number;
  readonly counter: number;
  readonly payload: Buffer;
};

function nonceOf(mode: Mode, counter: Buffer): Buffer {
  return Buffer.concat([counter, Buffer.alloc((mode === AES ? 12 : 24) - COUNTER)]);
}

function encrypt(mode: Mode, key: Uint8Array, nonce: Buffer, header: Buffer, plain: Buffer) {
  if (mode === XCHACHA) return xchacha20poly1305(key, nonce, header).encrypt(plain);
  const cipher = createCipheriv("aes-256-gcm", key, nonce);
  cipher.setAAD(header);
  return Buffer.concat([cipher.update(plain), cipher.final(), cipher.getAuthTag()]);
}

function decrypt(mode: Mode, key: Uint8Array, nonce: Buffer, header: Buffer, sealed: Buffer) {
  if (mode === XCHACHA) return xchacha20poly1305(key, nonce, header).decrypt(sealed);
  const decipher = createDecipheriv("aes-256-gcm", key, nonce);
  decipher.setAAD(header);
  decipher.setAuthTag(sealed.subarray(sealed.length - TAG));
  return Buffer.concat([
    decipher.update(sealed.subarray(0, sealed.length - TAG)),
    decipher.final(),
  ]);
}

/**
 * A packet as the server passes it on: with a header extension of one word, whose first four bytes
 * stay in the clear and whose body is encrypted with the sound (RFC 3550 and 8285).
 */
export function seal(packet: Packet, mode: Mode, key: Uint8Array): Buffer {
  const header = Buffer.alloc(HEADER + 4);
  header[0] = 0x90;
  header[1] = OPUS;
  header.writeUInt16BE(packet.sequence & 0xffff, 2);
  header.writeUInt32BE(packet.timestamp >>> 0, 4);
  header.writeUInt32BE(packet.ssrc, 8);
  header.writeUInt16BE(0xbede, 12);
  header.writeUInt16BE(1, 14);
  const extension = Buffer.of(0x10, 0xff, 0x00, 0x00);
  const counter = Buffer.alloc(COUNTER);
  counter.writeUInt32BE(packet.counter);
  const plain = Buffer.concat([extension, packet.payload]);
  const sealed = encrypt(mode, key, nonceOf(mode, counter), header, plain);
  return Buffer.concat([header, sealed, counter]);
}

/** Reads a packet of a client. @throws when it is none, or does not decrypt */
export function open(bytes: Buffer, mode: Mode, key: Uint8Array): Packet {
  if (bytes.length < HEADER + TAG + COUNTER) throw new RangeError("too short for a packet");
  if (bytes[0] !== 0x80) throw new RangeError(`first byte ${bytes[0]?.toString(16)}`);
  if (bytes[1] !== OPUS) throw new RangeError(`payload type ${bytes[1]}`);
  const header = bytes.subarray(0, HEADER);
  const counter = bytes.subarray(bytes.length - COUNTER);
  const sealed = bytes.subarray(HEADER, bytes.length - COUNTER);
  return {
    sequence: bytes.readUInt16BE(2),
    timestamp: bytes.readUInt32BE(4),
    ssrc: bytes.readUInt32BE(8),
    counter: counter.readUInt32BE(),
    payload: Buffer.from(decrypt(mode, key, nonceOf(mode, counter), header, sealed)),
  };
}
