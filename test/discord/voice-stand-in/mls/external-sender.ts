import { generateKeyPairSync, sign } from "node:crypto";
import { uint, vector } from "./bytes.ts";

const MLS_10 = uint(1, 2);
const PUBLIC_MESSAGE = uint(1, 2);
const BASIC = uint(1, 2);
const EXTERNAL = uint(2, 1);
const PROPOSAL = uint(2, 1);
const ADD = uint(1, 2);
const REMOVE = uint(3, 2);

/** The voice server's own voice in the group: it alone proposes who comes and goes. */
export type ExternalSender = {
  /** Key and credential as opcode 25 tells them. */
  readonly told: Buffer;
  /** Proposals as opcode 27 carries them, for one epoch of the group. */
  add(keyPackage: Buffer, epoch: bigint): Buffer;
  remove(leaf: number, epoch: bigint): Buffer;
};

/**
 * A new external sender of the group of a channel: ciphersuite 2, a basic credential, one sender
 * (DAVE protocol, "MLS Parameters" and opcodes 25 and 27; RFC 9420 sections 6 and 12.1.8).
 */
export function createExternalSender(channelId: string): ExternalSender {
  const { privateKey, publicKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
  const { x = "", y = "" } = publicKey.export({ format: "jwk" });
  const point = Buffer.concat([
    Buffer.of(4),
    Buffer.from(x, "base64url"),
    Buffer.from(y, "base64url"),
  ]);
  const group = uint(BigInt(channelId), 8);

  const message = (proposal: Buffer, epoch: bigint): Buffer => {
    const content = Buffer.concat([
      MLS_10,
      PUBLIC_MESSAGE,
      vector(group),
      uint(epoch, 8),
      EXTERNAL,
      uint(0, 4),
      vector(Buffer.alloc(0)),
      PROPOSAL,
      proposal,
    ]);
    const label = vector(Buffer.from("MLS 1.0 FramedContentTBS"));
    const signature = sign("sha256", Buffer.concat([label, vector(content)]), privateKey);
    return Buffer.concat([content, vector(signature)]);
  };

  return {
    told: Buffer.concat([vector(point), BASIC, vector(Buffer.from("voice stand-in"))]),
    add: (keyPackage, epoch) => message(Buffer.concat([ADD, keyPackage]), epoch),
    remove: (leaf, epoch) => message(Buffer.concat([REMOVE, uint(leaf, 4)]), epoch),
  };
}
