import { MessageFlags } from "discord-api-types/v10";
import { z } from "zod";
import { createMessage, editMessage as editForm, settableFlags } from "../limits/message.ts";
import { deleteMessage, editMessage, postMessage } from "../messages/post.ts";
import { channelPermissions, has } from "../permissions.ts";
import { channelView } from "../views/guild.ts";
import { fetchedMessage } from "../views/message.ts";
import type { Channel, Message } from "../world.ts";
import { type Answer, type Call, caller, formOf, queryOf, type Route } from "./call.ts";
import { channelOf, messageOf, need } from "./find.ts";
import { Refusal, refusals } from "./refusal.ts";

/** How long a nonce is remembered: "the past few minutes" (Create Message). */
const NONCE_MS = 5 * 60_000;
const HOUR = 3_600_000;
/** No figure is documented; 3 edits in 20 s of a channel is what users report. */
const OLD_EDITS = { limit: 3, windowMs: 20_000 };

const seen = (call: Call, message: Message): object =>
  fetchedMessage(call.world, message, caller(call), call.hosts);

/** Create Message. */
function post(call: Call): Answer {
  const { world, hosts, uploads } = call;
  const { bot } = caller(call);
  const channel = channelOf(call);
  if (channel.type === 4) throw refusals.notText();
  need(call, channel, "SendMessages");
  if (uploads.length > 0) need(call, channel, "AttachFiles");
  const form = formOf(call, createMessage);
  refuseFlags(form.flags, false);
  refuseClosed(call, channel);
  if (form.message_reference !== undefined && form.message_reference !== null) {
    need(call, channel, "ReadMessageHistory");
    refuseLostReference(channel, form.message_reference);
  }
  if (form.enforce_nonce === true && form.nonce !== undefined && form.nonce !== null) {
    // Unique for its author, wherever it was used: the page names no channel.
    const first = world.nonces.get(`${bot.id} ${form.nonce}`);
    if (first !== undefined && world.now() - first.at <= NONCE_MS) return seen(call, first);
  }
  return seen(call, postMessage(world, hosts, { channel, author: bot, form, uploads }));
}

export function refuseFlags(flags: number | null | undefined, response: boolean): void {
  if (((flags ?? 0) & ~settableFlags(response)) === 0) return;
  throw new Refusal(400, 50035, "Invalid Form Body", {
    errors: {
      flags: { _errors: [{ code: "BITFIELD_INVALID", message: "Flags cannot be set." }] },
    },
  });
}

/** A user who takes no direct messages, or shares no guild with the bot. */
function refuseClosed(call: Call, channel: Channel): void {
  if (channel.guildId !== undefined) return;
  const { bot } = caller(call);
  const other = channel.recipients.find(({ id }) => id !== bot.id);
  if (other === undefined || other.closed) throw refusals.cannotDm();
  const shared = [...call.world.guilds.values()].some(
    ({ members }) => members.has(other.id) && members.has(bot.id),
  );
  if (!shared) throw refusals.noMutualGuild();
}

function refuseLostReference(
  channel: Channel,
  reference: { message_id: string; fail_if_not_exists?: boolean | undefined },
): void {
  const there = channel.messages.some(
    ({ id, deletedAt }) => id === reference.message_id && deletedAt === undefined,
  );
  if (there || reference.fail_if_not_exists === false) return;
  throw new Refusal(400, 50035, "Invalid Form Body", {
    raced: true,
    errors: {
      message_reference: {
        _errors: [{ code: "MESSAGE_REFERENCE_UNKNOWN_MESSAGE", message: "Unknown message" }],
      },
    },
  });
}

/** Edit Message: one's own. */
function edit(call: Call): Answer {
  const { world, hosts, uploads } = call;
  const channel = channelOf(call);
  const message = messageOf(call, channel);
  if (message.author.id !== caller(call).bot.id) throw refusals.notYourMessage();
  const form = formOf(call, editForm);
  if (world.now() - message.at > HOUR) refuseOldEdit(channel, world.now());
  editMessage(world, hosts, message, form, uploads);
  return seen(call, message);
}

function refuseOldEdit(channel: Channel, now: number): void {
  channel.oldEdits = channel.oldEdits.filter((at) => now - at < OLD_EDITS.windowMs);
  const first = channel.oldEdits[0];
  if (first !== undefined && channel.oldEdits.length >= OLD_EDITS.limit)
    throw refusals.tooManyOldEdits((OLD_EDITS.windowMs - (now - first)) / 1000);
  channel.oldEdits.push(now);
}

/** Delete Message: one's own, or any with the permission. */
function remove(call: Call): Answer {
  const channel = channelOf(call);
  const message = messageOf(call, channel);
  if (message.author.id !== caller(call).bot.id) need(call, channel, "ManageMessages");
  deleteMessage(call.world, message);
  return undefined;
}

const page = z.strictObject({
  limit: z.coerce.number().int().min(1).max(100).default(50),
  before: z.string().optional(),
  after: z.string().optional(),
});

/** Get Channel Messages: newest first; nothing without the history permission. */
function list(call: Call): Answer {
  const channel = channelOf(call);
  const { limit, before, after } = queryOf(call, page);
  const all = channelPermissions(call.world, channel, caller(call).bot.id);
  if (!has(all, "ReadMessageHistory")) return [];
  const shown = channel.messages.filter(
    ({ id, deletedAt, onlyFor }) =>
      deletedAt === undefined &&
      onlyFor === undefined &&
      (before === undefined || BigInt(id) < BigInt(before)) &&
      (after === undefined || BigInt(id) > BigInt(after)),
  );
  const some = after === undefined ? shown.slice(-limit) : shown.slice(0, limit);
  return some.reverse().map((message) => seen(call, message));
}

function one(call: Call): Answer {
  const channel = channelOf(call);
  need(call, channel, "ReadMessageHistory");
  return seen(call, messageOf(call, channel));
}

function typing(call: Call): Answer {
  const channel = channelOf(call);
  need(call, channel, "SendMessages");
  channel.typing.push({ by: caller(call).bot.id, at: call.world.now() });
  return undefined;
}

const FIVE = { limit: 5, windowMs: 2000 };

export const messageRoutes: readonly Route[] = [
  { method: "POST", path: "/channels/:channel/messages", token: "bot", bucket: FIVE, run: post },
  {
    method: "GET",
    path: "/channels/:channel/messages",
    token: "bot",
    bucket: FIVE,
    query: ["limit", "before", "after"],
    run: list,
  },
  {
    method: "GET",
    path: "/channels/:channel/messages/:message",
    token: "bot",
    bucket: FIVE,
    run: one,
  },
  {
    method: "PATCH",
    path: "/channels/:channel/messages/:message",
    token: "bot",
    bucket: FIVE,
    run: edit,
  },
  {
    method: "DELETE",
    path: "/channels/:channel/messages/:message",
    token: "bot",
    bucket: FIVE,
    run: remove,
  },
  { method: "POST", path: "/channels/:channel/typing", token: "bot", bucket: FIVE, run: typing },
  {
    method: "GET",
    path: "/channels/:channel",
    token: "bot",
    bucket: FIVE,
    run: (call) => channelView(channelOf(call), caller(call).bot.id),
  },
];

export const ephemeral = (flags: number | null | undefined): boolean =>
  ((flags ?? 0) & MessageFlags.Ephemeral) !== 0;
