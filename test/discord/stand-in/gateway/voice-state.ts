import { z } from "zod";
import { channelPermissions, has } from "../permissions.ts";
import { setVoiceState, statesOf } from "../voice-states.ts";
import type { Close, Gateway } from "./gateway.ts";
import { dispatch, type Session } from "./session.ts";

const VOICE = 2;

/** Update Voice State (Gateway Events). */
const wanted = z.strictObject({
  guild_id: z.string(),
  channel_id: z.string().nullable(),
  self_mute: z.boolean(),
  self_deaf: z.boolean(),
});

/** The bot goes into a voice channel, into another one, or out (opcode 4). */
export function takeVoiceState(gateway: Gateway, session: Session, d: unknown, close: Close) {
  const { world } = gateway;
  const read = wanted.safeParse(d);
  if (!read.success) return close(4002, "Voice state unreadable.");
  const {
    guild_id: id,
    channel_id: channelId,
    self_deaf: selfDeaf,
    self_mute: selfMute,
  } = read.data;
  const { bot } = session.application;
  const guild = world.guilds.get(id);
  if (guild === undefined || !guild.members.has(bot.id)) return;
  if (channelId === null) {
    if (!statesOf(world, id).has(bot.id)) return;
    setVoiceState(world, guild, bot.id, undefined);
    world.voice.host?.left("left");
    return;
  }
  const channel = world.channels.get(channelId);
  const allowed =
    channel?.type === VOICE &&
    channel.guildId === id &&
    has(channelPermissions(world, channel, bot.id), "Connect");
  if (!allowed) {
    world.violations.push({ kind: "voice-connect", detail: `may not enter ${channelId}` });
    return;
  }
  setVoiceState(world, guild, bot.id, {
    channel: channelId,
    session: session.id,
    selfDeaf,
    selfMute,
  });
  seat(gateway, session, id, channelId);
}

/** Tells the bot of a voice server; without one it waits. */
export function seat({ world }: Gateway, session: Session, guild: string, channel: string): void {
  const { host } = world.voice;
  const user = session.application.bot.id;
  const found = host?.seat({ guild, channel, user, session: session.id });
  if (found === undefined) return;
  dispatch(session, "VOICE_SERVER_UPDATE", {
    token: found.token,
    guild_id: guild,
    endpoint: found.endpoint,
  });
}
