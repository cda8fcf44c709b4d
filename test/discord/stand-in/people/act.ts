import { randomBytes } from "node:crypto";
import { type InteractionType, Locale } from "discord-api-types/v10";
import { UPLOAD_LIMIT } from "../messages/files.ts";
import { channelPermissions } from "../permissions.ts";
import { channelView } from "../views/guild.ts";
import { type Hosts, messageView } from "../views/message.ts";
import { actingMemberView, userView } from "../views/user.ts";
import type { Application, Channel, Interaction, User, World } from "../world.ts";
import { type InteractionHandle, interactionHandle } from "./interaction-handle.ts";

export type Action = {
  readonly application: Application;
  readonly user: User;
  readonly channel: Channel;
  readonly type: InteractionType;
  readonly data: object;
  readonly messageId?: string | undefined;
};

/** A user does something to the bot: makes the interaction and sends it ("Interaction Object"). */
export function act(world: World, hosts: Hosts, action: Action): InteractionHandle {
  const { application, user, channel, type } = action;
  const guild = world.guilds.get(channel.guildId ?? "");
  const member = guild?.members.get(user.id);
  const message = channel.messages.find(({ id }) => id === action.messageId);
  const id = world.ids.next();
  const token = randomBytes(64).toString("base64url");
  const payload = {
    id,
    application_id: application.id,
    type,
    data: action.data,
    ...(guild === undefined
      ? {}
      : {
          guild_id: guild.id,
          guild: { id: guild.id, locale: Locale.EnglishUS, features: [] },
          guild_locale: Locale.EnglishUS,
        }),
    channel_id: channel.id,
    channel: channelView(channel, application.bot.id),
    ...(member === undefined
      ? { user: userView(user) }
      : { member: actingMemberView(member, channelPermissions(world, channel, user.id)) }),
    token,
    version: 1,
    ...(message === undefined ? {} : { message: messageView(world, message, hosts) }),
    app_permissions: String(channelPermissions(world, channel, application.bot.id)),
    locale: Locale.EnglishUS,
    entitlements: [],
    authorizing_integration_owners: { "0": guild?.id ?? "0" },
    context: guild === undefined ? 1 : 0,
    attachment_size_limit: UPLOAD_LIMIT,
  };
  const interaction: Interaction = {
    id,
    token,
    type,
    application,
    user,
    channelId: channel.id,
    guildId: guild?.id,
    at: world.now(),
    messageId: message?.id,
    payload,
    delivered: false,
    acknowledged: undefined,
    original: undefined,
    followUps: [],
    modal: undefined,
    choices: undefined,
  };
  world.interactions.set(id, interaction);
  world.interactionTokens.set(token, interaction);
  const send = (): void => {
    const heard = world.announce({
      t: "INTERACTION_CREATE",
      guildId: guild?.id,
      only: application,
      intents: 0,
      data: () => payload,
    });
    if (heard > 0) interaction.delivered = true;
  };
  send();
  return interactionHandle(world, interaction, send);
}
