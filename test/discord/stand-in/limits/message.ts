import { MessageFlags } from "discord-api-types/v10";
import { z } from "zod";
import { components } from "./components.ts";
import { embeds } from "./embeds.ts";

const snowflake = z.string().regex(/^\d{17,20}$/);

/** `parse` and the lists exclude each other; a list has at most 100 ("Allowed Mentions Object"). */
export const allowedMentions = z
  .strictObject({
    parse: z.array(z.enum(["users", "roles", "everyone"])).optional(),
    users: z.array(snowflake).max(100).optional(),
    roles: z.array(snowflake).max(100).optional(),
    replied_user: z.boolean().optional(),
  })
  .superRefine((one, context) => {
    for (const key of ["users", "roles"] as const) {
      if (!one.parse?.includes(key) || (one[key] ?? []).length === 0) continue;
      context.addIssue({
        code: "custom",
        path: [key],
        message: `parse:["${key}"] and ${key}: [ids...] are mutually exclusive.`,
        params: { code: "MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE" },
      });
    }
  });

export type AllowedMentions = z.infer<typeof allowedMentions>;

const attachments = z.array(
  z.strictObject({
    id: z.union([z.string(), z.int()]),
    filename: z.string().max(260).optional(),
    title: z.string().max(1024).nullable().optional(),
    description: z.string().max(1024).nullable().optional(),
  }),
);

/** What an edit may change ("Edit Message"): null takes away. */
const editable = {
  content: z.string().max(2000).nullable().optional(),
  embeds: embeds.nullable().optional(),
  components: components.nullable().optional(),
  allowed_mentions: allowedMentions.nullable().optional(),
  attachments: attachments.nullable().optional(),
  flags: z.int().min(0).nullable().optional(),
  // The client sends these two with every message, where they mean nothing as well.
  tts: z.boolean().optional(),
  enforce_nonce: z.boolean().optional(),
};

/** Create Message: 2000 characters, a nonce of up to 25. */
export const createMessage = z.strictObject({
  ...editable,
  nonce: z
    .union([z.string().max(25), z.int()])
    .nullable()
    .optional(),
  message_reference: z
    .strictObject({
      type: z.literal([0]).optional(),
      message_id: snowflake,
      channel_id: snowflake.optional(),
      guild_id: snowflake.optional(),
      fail_if_not_exists: z.boolean().optional(),
    })
    .nullable()
    .optional(),
});

export const editMessage = z.strictObject(editable);

/** A follow-up or a response ("Execute Webhook", "Interaction Callback Data Structure"): no nonce. */
export const webhookMessage = z.strictObject(editable);

export type MessageForm = z.infer<typeof createMessage>;

/** The flags one may set: no link previews, no ring, and for a response only the user sees it. */
export const settableFlags = (ephemeralAllowed: boolean): number =>
  MessageFlags.SuppressEmbeds |
  MessageFlags.SuppressNotifications |
  (ephemeralAllowed ? MessageFlags.Ephemeral : 0);
