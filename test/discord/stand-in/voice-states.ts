import { GatewayIntentBits } from "discord-api-types/v10";
import { memberView } from "./views/user.ts";
import type { Guild, World } from "./world.ts";

/** Where somebody is in voice. */
export type VoiceState = {
  readonly channel: string;
  readonly session: string;
  readonly selfDeaf: boolean;
  readonly selfMute: boolean;
};

/** A bot on its way into a call. */
export type Seat = {
  readonly guild: string;
  readonly channel: string;
  readonly user: string;
  /** Of its session with the main gateway. */
  readonly session: string;
};

/** The voice server bots are sent to. */
export type VoiceHost = {
  /** Where the bot goes and what it shows there; undefined: nothing is answered. */
  seat(seat: Seat): { readonly endpoint: string; readonly token: string } | undefined;
  /** The bot is in the call no more: it left, or was put out. */
  left(why: "left" | "put out"): void;
};

export type VoiceWorld = {
  /** By guild, then by user. */
  readonly states: Map<string, Map<string, VoiceState>>;
  host: VoiceHost | undefined;
};

export const createVoiceWorld = (): VoiceWorld => ({ states: new Map(), host: undefined });

export const statesOf = ({ voice }: World, guild: string): ReadonlyMap<string, VoiceState> =>
  voice.states.get(guild) ?? new Map();

/** A voice state as events and guilds show it ("Voice State Structure"). */
export const voiceStateView = (user: string, state: VoiceState | undefined, session: string) => ({
  channel_id: state?.channel ?? null,
  user_id: user,
  session_id: session,
  deaf: false,
  mute: false,
  self_deaf: state?.selfDeaf ?? false,
  self_mute: state?.selfMute ?? false,
  self_video: false,
  suppress: false,
  request_to_speak_timestamp: null,
});

/** Somebody is in another voice channel from here on, or in none; all who may hear of it do. */
export function setVoiceState(
  world: World,
  guild: Guild,
  user: string,
  state: VoiceState | undefined,
): void {
  const states = world.voice.states.get(guild.id) ?? new Map<string, VoiceState>();
  world.voice.states.set(guild.id, states);
  const session = state?.session ?? states.get(user)?.session ?? "";
  if (state === undefined) states.delete(user);
  else states.set(user, state);
  const member = guild.members.get(user);
  world.announce({
    t: "VOICE_STATE_UPDATE",
    guildId: guild.id,
    intents: GatewayIntentBits.GuildVoiceStates,
    heardBy: ({ bot }) => guild.members.has(bot.id),
    data: () => ({
      ...voiceStateView(user, state, session),
      guild_id: guild.id,
      ...(member === undefined ? {} : { member: memberView(member) }),
    }),
  });
}
