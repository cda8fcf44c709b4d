import { z } from "zod";
import type { MessagePayload } from "../words/message-payload.ts";

/** An id as Discord gives them out. */
const id = z.string().regex(/^\d{15,20}$/);
/** Unix milliseconds. */
const at = z.number();

const payloadOutline = z.looseObject({ content: z.string() });

/** A message as it will be sent; made by us, so only its outline is checked. */
const payloadSchema = z.custom<MessagePayload>((value) => payloadOutline.safeParse(value).success);

export const postSchema = z.object({
  /** Sent along, so that a message that was taken once is never taken twice. */
  nonce: z.string().max(25),
  /**
   * A cue or a plan goes before everything else, in the order they were made; the others follow in
   * theirs.
   */
  rank: z.enum(["cue", "other"]),
  to: z.union([z.object({ channel: id }), z.object({ user: id })]),
  payload: payloadSchema,
  /** When it was to be heard; later than its tolerance it says so. */
  due: at,
  /** Whom a cue is for: it goes to them directly where the channel cannot be written to. */
  owner: id.optional(),
  /** Where it goes when the first place takes nothing; each is tried once. */
  instead: z.union([z.object({ channel: id }), z.object({ user: id })]).optional(),
  /** Only for somebody who is still a member of the bench when it goes out. */
  forMember: z.literal(true).optional(),
  /** Posts that go out as one message, since all were late, carry the nonce of the first. */
  batch: z.string().optional(),
});
/** Something to be posted, kept until Discord has taken it. */
export type Post = z.infer<typeof postSchema>;

const memberSchema = z.object({
  /** What the bench calls them; unlike any other name on the bench. */
  name: z.string(),
  /** Listed by an administrator; else they come by the bench's role. */
  listed: z.boolean(),
  /** Where reminders and the daily message reach them. */
  reminders: z.enum(["channel", "dm"]).default("channel"),
});
export type Member = z.infer<typeof memberSchema>;

export const placeSchema = z.object({
  schemaVersion: z.literal(1),
  kind: z.literal("place"),
  guild: id,
  channel: id,
  /** What the channel is called, for messages sent elsewhere. */
  channelName: z.string(),
  /** The administrator who opened it: told when something must be mended. */
  openedBy: id,
  /** Why it is not open; missing while it is. */
  closed: z.enum(["by an administrator", "channel deleted", "bot removed"]).optional(),
  members: z.record(id, memberSchema).default({}),
  role: id.optional(),
  groupChannel: id.optional(),
  /** The voice channel administrators named for it; missing: wherever a member is. */
  voiceChannel: id.optional(),
  /** Who started each run that is not over. */
  owners: z.record(z.string(), id).default({}),
  /** The live message of each run that is not over. */
  statuses: z.record(z.string(), z.object({ message: id, channel: id, at })).default({}),
  /** When the live message of a run was first tried, where no answer has told yet that it is there. */
  making: z.record(z.string(), at).default({}),
  /** What was shown to a member and waits for their yes before it goes to the group. */
  offers: z
    .record(
      id,
      z.object({
        run: z.string(),
        payloads: z.array(payloadSchema),
        at,
        /** What goes with them, as it was drawn. */
        picture: z
          .object({ name: z.string(), svg: z.string(), width: z.number(), height: z.number() })
          .optional(),
      }),
    )
    .default({}),
  /** Runs that were shared. */
  shared: z.array(z.string()).default([]),
  nextPost: z.int().min(1).default(1),
  outbox: z.array(postSchema).default([]),
});
/** A bench's place in Discord: where it is, who may use it, and what is on its way there. */
export type Place = z.infer<typeof placeSchema>;

export const frontSchema = z.object({
  schemaVersion: z.literal(1),
  kind: z.literal("front"),
  /** Which commands were registered for which application. */
  registered: z.object({ application: id, commands: z.string() }).optional(),
  /** When a shard identified last: Discord wants a pause before the next, over a restart too. */
  identified: at.optional(),
  /** Which bench a direct message is for, by who writes it. */
  people: z.record(id, z.object({ bench: z.string().optional() })).default({}),
});
/** What the channel keeps beside its benches. */
export type Front = z.infer<typeof frontSchema>;

export const recordSchema = z.discriminatedUnion("kind", [placeSchema, frontSchema]);
export type DirectoryRecord = z.infer<typeof recordSchema>;

export const newFront = (): Front => ({ schemaVersion: 1, kind: "front", people: {} });

export function newPlace(
  where: Pick<Place, "guild" | "channel" | "channelName" | "openedBy">,
): Place {
  return {
    schemaVersion: 1,
    kind: "place",
    ...where,
    members: {},
    owners: {},
    statuses: {},
    making: {},
    offers: {},
    shared: [],
    nextPost: 1,
    outbox: [],
  };
}
