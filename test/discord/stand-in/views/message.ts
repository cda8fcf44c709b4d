import {
  type APIAttachment,
  type APIMessage,
  GatewayIntentBits,
  type GatewayMessageCreateDispatchData,
  MessageReferenceType,
} from "discord-api-types/v10";
import type { Application, Attachment, Message, World } from "../world.ts";
import { bareMemberView, userView } from "./user.ts";

const attachmentView = (attachment: Attachment, base: string): APIAttachment => ({
  id: attachment.id,
  filename: attachment.filename,
  size: attachment.bytes.length,
  url: `${base}/attachments/${attachment.id}/${attachment.filename}`,
  proxy_url: `${base}/attachments/${attachment.id}/${attachment.filename}`,
  content_type: attachment.contentType,
  ...(attachment.description === undefined ? {} : { description: attachment.description }),
});

/** Where attachments are fetched and sockets opened; set by the server that has a port. */
export type Hosts = { attachments: string; gateway: string };

export function messageView(world: World, message: Message, hosts: Hosts): APIMessage {
  const { said } = message;
  const interaction =
    message.interactionId === undefined ? undefined : world.interactions.get(message.interactionId);
  return {
    id: message.id,
    channel_id: message.channelId,
    author: userView(message.author),
    type: message.type,
    content: said.content,
    timestamp: new Date(message.at).toISOString(),
    edited_timestamp: lastEdit(message),
    tts: false,
    mention_everyone: message.mentionEveryone,
    mentions: message.mentions.map(userView),
    mention_roles: [...message.mentionRoles],
    attachments: said.attachments.map((one) => attachmentView(one, hosts.attachments)),
    embeds: [...said.embeds],
    components: [...said.components],
    pinned: false,
    flags: message.flags,
    ...(message.nonce === undefined ? {} : { nonce: message.nonce }),
    ...(message.applicationId === undefined
      ? {}
      : { application_id: message.applicationId, webhook_id: message.applicationId }),
    ...(message.reference === undefined
      ? {}
      : {
          message_reference: {
            type: MessageReferenceType.Default,
            message_id: message.reference,
            channel_id: message.channelId,
          },
        }),
    ...(interaction === undefined
      ? {}
      : {
          interaction_metadata: {
            id: interaction.id,
            type: interaction.type,
            user: userView(interaction.user),
            authorizing_integration_owners: {},
          } as APIMessage["interaction_metadata"],
        }),
  } as APIMessage;
}

function lastEdit(message: Message): string | null {
  const last = message.edits.at(-1);
  return last === undefined ? null : new Date(last.at).toISOString();
}

/**
 * Whether an application may read what a message says: its own, those that mention it, direct
 * messages, or any with the message-content intent (Gateway, "Message Content Intent").
 */
function readable(world: World, message: Message, application: Application, on: boolean): boolean {
  return (
    on ||
    message.author.id === application.bot.id ||
    message.mentions.some(({ id }) => id === application.bot.id) ||
    world.channels.get(message.channelId)?.guildId === undefined
  );
}

const blank = { content: "", embeds: [], attachments: [], components: [] };

/** A message as fetched: by what the application is allowed, whatever its socket asked for. */
export function fetchedMessage(
  world: World,
  message: Message,
  application: Application,
  hosts: Hosts,
): APIMessage {
  const view = messageView(world, message, hosts);
  const open = readable(world, message, application, application.intents.messageContent);
  return open ? view : { ...view, ...blank };
}

/** A message as announced to a socket that asked for `intents`. */
export function announcedMessage(
  world: World,
  message: Message,
  application: Application,
  intents: number,
  hosts: Hosts,
): GatewayMessageCreateDispatchData {
  const on = (intents & GatewayIntentBits.MessageContent) !== 0;
  const view = messageView(world, message, hosts);
  const channel = world.channels.get(message.channelId);
  const guild = world.guilds.get(channel?.guildId ?? "");
  const member = guild?.members.get(message.author.id);
  return {
    ...view,
    ...(readable(world, message, application, on) ? {} : blank),
    channel_type: channel?.type ?? 0,
    ...(guild === undefined ? {} : { guild_id: guild.id }),
    ...(member === undefined ? {} : { member: bareMemberView(member) }),
  } as GatewayMessageCreateDispatchData;
}
