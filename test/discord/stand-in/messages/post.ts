import { GatewayIntentBits, MessageFlags, MessageType } from "discord-api-types/v10";
import type { MessageForm } from "../limits/message.ts";
import { channelPermissions, has } from "../permissions.ts";
import { refusals } from "../rest/refusal.ts";
import { announcedMessage, type Hosts } from "../views/message.ts";
import type { Application, Channel, Message, Said, User, World } from "../world.ts";
import { attach, type Upload } from "./files.ts";
import { readMentions } from "./mentions.ts";

export type Draft = {
  readonly channel: Channel;
  readonly author: User;
  readonly form: Partial<MessageForm>;
  readonly uploads?: readonly Upload[];
  readonly interactionId?: string;
  readonly applicationId?: string;
  readonly onlyFor?: string;
  readonly type?: MessageType;
  /** Says nothing yet: the user sees that the bot thinks. */
  readonly loading?: boolean;
};

/** Something to see is needed: text, an embed, a component or a file (Create Message). */
function refuseEmpty({ content, embeds, components, attachments }: Said): void {
  const parts = [content, embeds, components, attachments];
  if (parts.every(({ length }) => length === 0)) throw refusals.emptyMessage();
}

/** Puts a message into its channel and tells whoever may hear of it. Text is trimmed (from memory). */
export function postMessage(world: World, hosts: Hosts, draft: Draft): Message {
  const { channel, author, form } = draft;
  const said: Said = {
    content: (form.content ?? "").trim(),
    embeds: (form.embeds ?? []) as Said["embeds"],
    components: (form.components ?? []) as Said["components"],
    attachments: attach(world, [], draft.uploads ?? [], form.attachments),
  };
  if (draft.loading !== true) refuseEmpty(said);
  const reference = channel.messages.find(({ id }) => id === form.message_reference?.message_id);
  const flags =
    ((form.flags ?? 0) & ~MessageFlags.Ephemeral) |
    (draft.onlyFor === undefined ? 0 : MessageFlags.Ephemeral) |
    (draft.loading === true ? MessageFlags.Loading : 0);
  const mentioned = readMentions(world, {
    channel,
    author,
    content: said.content,
    allowed: form.allowed_mentions ?? undefined,
    repliedTo: reference?.author,
    flags,
  });
  const message: Message = {
    id: world.ids.next(),
    channelId: channel.id,
    author,
    type: draft.type ?? (reference === undefined ? MessageType.Default : MessageType.Reply),
    at: world.now(),
    said,
    edits: [],
    flags,
    ...mentioned,
    nonce: form.nonce ?? undefined,
    reference: reference?.id,
    interactionId: draft.interactionId,
    applicationId: draft.applicationId,
    onlyFor: draft.onlyFor,
    deletedAt: undefined,
  };
  channel.messages.push(message);
  if (message.nonce !== undefined) world.nonces.set(`${author.id} ${message.nonce}`, message);
  tell(world, hosts, "MESSAGE_CREATE", message);
  return message;
}

/** Changes what a message says; mentions are read anew, and nobody is rung ("Edit Message"). */
export function editMessage(
  world: World,
  hosts: Hosts,
  message: Message,
  form: Partial<MessageForm>,
  uploads: readonly Upload[],
): void {
  const { said } = message;
  const next: Said = {
    content: form.content === undefined ? said.content : (form.content ?? "").trim(),
    embeds: form.embeds === undefined ? said.embeds : ((form.embeds ?? []) as Said["embeds"]),
    components:
      form.components === undefined
        ? said.components
        : ((form.components ?? []) as Said["components"]),
    attachments: attach(world, said.attachments, uploads, form.attachments),
  };
  refuseEmpty(next);
  if ((message.flags & MessageFlags.Loading) === 0) message.edits.push({ said, at: world.now() });
  message.said = next;
  if (form.content !== undefined) remention(world, message, form);
  const suppress = (form.flags ?? 0) & MessageFlags.SuppressEmbeds;
  message.flags = (message.flags & ~MessageFlags.SuppressEmbeds & ~MessageFlags.Loading) | suppress;
  tell(world, hosts, "MESSAGE_UPDATE", message);
}

/** Without allowed mentions of its own an edit has the default ones, whatever the first text had. */
function remention(world: World, message: Message, form: Partial<MessageForm>): void {
  const channel = world.channels.get(message.channelId);
  if (channel === undefined) return;
  const replied = channel.messages.find(({ id }) => id === message.reference);
  const { mentions, mentionRoles, mentionEveryone } = readMentions(world, {
    channel,
    author: message.author,
    content: message.said.content,
    allowed: form.allowed_mentions ?? undefined,
    repliedTo: replied?.author,
    flags: message.flags,
  });
  Object.assign(message, { mentions, mentionRoles, mentionEveryone });
}

export function deleteMessage(world: World, message: Message): void {
  message.deletedAt = world.now();
  if (message.onlyFor !== undefined) return;
  const channel = world.channels.get(message.channelId);
  world.announce({
    t: "MESSAGE_DELETE",
    guildId: channel?.guildId,
    intents: intentsFor(channel),
    heardBy: (application) => hears(world, channel, application),
    data: () => ({
      id: message.id,
      channel_id: message.channelId,
      ...(channel?.guildId === undefined ? {} : { guild_id: channel.guildId }),
    }),
  });
}

const intentsFor = (channel: Channel | undefined): number =>
  channel?.guildId === undefined
    ? GatewayIntentBits.DirectMessages
    : GatewayIntentBits.GuildMessages;

const hears = (world: World, channel: Channel | undefined, application: Application): boolean =>
  channel !== undefined &&
  has(channelPermissions(world, channel, application.bot.id), "ViewChannel");

/** What only one user sees is announced to nobody (from memory). */
function tell(world: World, hosts: Hosts, t: string, message: Message): void {
  if (message.onlyFor !== undefined) return;
  const channel = world.channels.get(message.channelId);
  world.announce({
    t,
    guildId: channel?.guildId,
    intents: intentsFor(channel),
    heardBy: (application) => hears(world, channel, application),
    data: (application, intents) => announcedMessage(world, message, application, intents, hosts),
  });
}
