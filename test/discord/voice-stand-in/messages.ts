import { z } from "zod";
import { AES, XCHACHA } from "./rtp.ts";

/** What a client sends to the voice server as JSON, version 8 (Voice Opcodes; DAVE protocol). */
export const clientMessage = z.discriminatedUnion("op", [
  z.strictObject({
    op: z.literal(0),
    d: z.strictObject({
      server_id: z.string(),
      user_id: z.string(),
      session_id: z.string(),
      token: z.string(),
      max_dave_protocol_version: z.int().min(0),
    }),
  }),
  z.strictObject({
    op: z.literal(1),
    d: z.strictObject({
      protocol: z.literal("udp"),
      data: z.strictObject({
        address: z.string(),
        port: z.int(),
        mode: z.enum([XCHACHA, AES]),
      }),
    }),
  }),
  z.strictObject({
    op: z.literal(3),
    d: z.strictObject({ t: z.number(), seq_ack: z.int().min(-1) }),
  }),
  z.strictObject({
    op: z.literal(5),
    d: z.strictObject({ speaking: z.int(), delay: z.literal(0), ssrc: z.int() }),
  }),
  z.strictObject({
    op: z.literal(7),
    d: z.strictObject({
      server_id: z.string(),
      session_id: z.string(),
      token: z.string(),
      seq_ack: z.int().min(-1),
    }),
  }),
  z.strictObject({ op: z.literal(23), d: z.strictObject({ transition_id: z.int().min(0) }) }),
  z.strictObject({ op: z.literal(31), d: z.strictObject({ transition_id: z.int().min(0) }) }),
]);

export type ClientMessage = z.infer<typeof clientMessage>;
