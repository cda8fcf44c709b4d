import {
  type APIEmbed,
  type ButtonStyle,
  ComponentType,
  MessageFlags,
} from "discord-api-types/v10";
import type { Message, World } from "../world.ts";

export type Button = {
  readonly label: string;
  readonly customId: string | undefined;
  readonly url: string | undefined;
  readonly style: ButtonStyle;
  readonly disabled: boolean;
  /** Which row, from 0. */
  readonly row: number;
};

/** A message as a member sees it. Times are the service's, in Unix ms. */
export type Posted = {
  readonly id: string;
  readonly channelId: string;
  readonly author: string;
  readonly authorId: string;
  readonly at: number;
  readonly content: string;
  readonly embeds: readonly APIEmbed[];
  readonly buttons: readonly Button[];
  /** The component rows as sent. */
  readonly components: readonly object[];
  readonly attachments: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** What it said before, oldest first. */
  readonly edits: readonly { readonly content: string; readonly at: number }[];
  /** Names of those whose device rang for being mentioned. */
  readonly pinged: readonly string[];
  /** Only one user sees it. */
  readonly ephemeral: boolean;
  /** The bot "is thinking": deferred, not filled. */
  readonly loading: boolean;
  /** Rings nobody, as posted. */
  readonly silent: boolean;
  readonly replyTo: string | undefined;
  readonly nonce: string | number | undefined;
  readonly deleted: boolean;
};

/** The buttons of component rows, left to right, top to bottom. */
export function buttonsOf(components: readonly object[]): Button[] {
  return components.flatMap((row, index) =>
    "components" in row && Array.isArray(row.components)
      ? row.components
          .filter((one) => one.type === ComponentType.Button)
          .map((one) => ({
            label: one.label ?? "",
            customId: one.custom_id,
            url: one.url,
            style: one.style,
            disabled: one.disabled === true,
            row: index,
          }))
      : [],
  );
}

export function posted(world: World, message: Message): Posted {
  const { said } = message;
  return {
    id: message.id,
    channelId: message.channelId,
    author: message.author.name,
    authorId: message.author.id,
    at: message.at,
    content: said.content,
    embeds: said.embeds,
    components: said.components,
    buttons: buttonsOf(said.components),
    attachments: said.attachments.map(({ filename, bytes }) => ({ name: filename, bytes })),
    edits: message.edits.map(({ said: before, at }) => ({ content: before.content, at })),
    pinged: message.pinged.map((id) => world.users.get(id)?.name ?? id),
    ephemeral: message.onlyFor !== undefined,
    loading: (message.flags & MessageFlags.Loading) !== 0,
    silent: (message.flags & MessageFlags.SuppressNotifications) !== 0,
    replyTo: message.reference,
    nonce: message.nonce,
    deleted: message.deletedAt !== undefined,
  };
}
