import type { Gateway } from "./gateway/gateway.ts";
import { seat } from "./gateway/voice-state.ts";
import { setVoiceState, statesOf, type VoiceHost } from "./voice-states.ts";
import type { Guild, World } from "./world.ts";

/** What happens to a bot's place in a call. */
export type VoiceMischief = {
  /** The server bots are sent to from here on. */
  host(host: VoiceHost | undefined): void;
  /** The channel the bot is in, by name. */
  readonly botIn: string | undefined;
  /** Somebody disconnects the bot from its call. */
  putOut(): void;
  /** Somebody drags the bot into another voice channel. */
  drag(channel: { readonly id: string }): void;
  /** The call moves to the server that was last named with `host`. */
  moveServer(): void;
};

export function createVoiceMischief(world: World, gateway: Gateway): VoiceMischief {
  const botPlace = () => {
    for (const guild of world.guilds.values())
      for (const [user, state] of statesOf(world, guild.id))
        if (world.users.get(user)?.bot === true) return { guild, user, state };
    return undefined;
  };
  const here = () => {
    const place = botPlace();
    if (place === undefined) throw new Error("The bot is in no call");
    return place;
  };
  const reseat = (guild: Guild, user: string, channel: string): void => {
    for (const session of gateway.sessions.values())
      if (session.application.bot.id === user) seat(gateway, session, guild.id, channel);
  };
  return {
    host(host) {
      world.voice.host = host;
    },
    get botIn() {
      return world.channels.get(botPlace()?.state.channel ?? "")?.name;
    },
    putOut() {
      const { guild, user } = here();
      setVoiceState(world, guild, user, undefined);
      world.voice.host?.left("put out");
    },
    drag({ id }) {
      const { guild, user, state } = here();
      world.voice.host?.left("put out");
      setVoiceState(world, guild, user, { ...state, channel: id });
      reseat(guild, user, id);
    },
    moveServer() {
      const { guild, user, state } = here();
      reseat(guild, user, state.channel);
    },
  };
}
