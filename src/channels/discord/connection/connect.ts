import { type Client, GatewayDispatchEvents as Dispatch, Events } from "discord.js";
import {
  type APIInteraction,
  ApplicationFlags,
  type GatewayChannelDeleteDispatchData,
  type GatewayChannelUpdateDispatchData,
  type GatewayGuildCreateDispatchData,
  type GatewayGuildDeleteDispatchData,
  type GatewayGuildRoleUpdateDispatchData,
  type GatewayMessageCreateDispatchData,
  type GatewayReadyDispatchData,
  Routes,
} from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "../delivery/api.ts";
import { backOff } from "../delivery/back-off.ts";
import { failureOf } from "../delivery/failure.ts";
import type { Sender } from "../delivery/sender.ts";
import type { Desk } from "../hearing/desk.ts";
import { hearInteraction } from "../hearing/hear-interaction.ts";
import { hearMessage } from "../hearing/hear-message.ts";
import { managesBy } from "../people/manages.ts";
import type { Overwrite } from "../set-up/permissions.ts";
import { voiceStateSchema } from "../voice/presence.ts";
import { type ClientParts, createClient } from "./client.ts";
import { BAD_TOKEN, whyOver } from "./close-words.ts";
import type { Guilds } from "./guilds.ts";
import { register } from "./register.ts";

export type ConnectParts = Omit<ClientParts, "content" | "calls" | "identified" | "onIdentify"> & {
  readonly api: Api;
  readonly sender: Sender;
  readonly guilds: Guilds;
  readonly desk: Omit<Desk, "bot" | "manages">;
  readonly note: (sentence: string) => void;
  /** Discord will not have the bot back as it is; with what to mend. */
  readonly onOver: (why: string) => void;
};

export type Connection = {
  readonly connected: Promise<void>;
  badToken(): void;
  close(): Promise<void>;
};

const applicationSchema = z.object({ id: z.string(), flags: z.number().default(0) });
const userSchema = z.object({ id: z.string() });

const MESSAGE_CONTENT =
  ApplicationFlags.GatewayMessageContent | ApplicationFlags.GatewayMessageContentLimited;
/** The library's farewell to Discord is waited for so long, ms. */
const FAREWELL = 1000;
/** The intents that were asked for are not allowed any more. */
const DISALLOWED = 4014;

/** Connects, and again whenever the line was lost: the library resumes where that can be done. */
export function connect(parts: ConnectParts): Connection {
  const { api, sender, guilds, note, settings, wire } = parts;
  const connected = Promise.withResolvers<void>();
  let client: Client | undefined;
  let closed = false;
  /** Discord refused the intent although the application seemed to have it. */
  let withoutContent = false;

  const end = (why: string): void => {
    if (closed) return;
    closed = true;
    sender.stop();
    void client?.destroy();
    parts.onOver(why);
  };

  const attempt = async (): Promise<void> => {
    const { id, flags } = applicationSchema.parse(
      await api.call("get", Routes.currentApplication()),
    );
    const { id: bot } = userSchema.parse(await api.call("get", Routes.user()));
    await registered(id);
    if (closed) return;
    const content = !withoutContent && (flags & MESSAGE_CONTENT) !== 0;
    const { front, calls, onFault } = parts.desk;
    const { identified } = front.value;
    const onIdentify = (at: number): void => {
      front.change((value) => ({ ...value, identified: at })).catch(onFault);
    };
    client = createClient({ ...parts, content, calls: calls.able, identified, onIdentify });
    const { guilds: known } = client;
    calls.attach({ bot, adapterOf: (guild) => known.cache.get(guild)?.voiceAdapterCreator });
    listen(client, { ...parts.desk, bot, manages: managesBy(client) });
    await client.login(settings.token.reveal());
    if (closed) await client.destroy();
  };

  /** Commands that Discord will not have keep nobody from what works without them. */
  const registered = async (application: string): Promise<void> => {
    try {
      await register(api, application, parts.desk.commands, parts.desk.front);
    } catch (error) {
      const failure = failureOf(error);
      if (failure.kind !== "refused") throw error;
      note(`Discord would not take the slash commands (${failure.what}); /say may be missing.`);
    }
  };

  const go = async (): Promise<void> => {
    for (let failures = 1; !closed; failures += 1) {
      try {
        return await attempt();
      } catch (error) {
        const failure = failureOf(error);
        if (failure.kind === "bad-token" || isInvalidToken(error)) return end(BAD_TOKEN);
        if (failures === 1)
          note("I cannot reach Discord yet; I go on trying. Runs keep their time.");
        void client?.destroy();
        const wait = failure.kind === "limited" ? failure.ms : backOff(failures);
        await new Promise<void>((done) => void wire.setTimer(wait, done));
      }
    }
  };

  const again = (): void => {
    void client?.destroy();
    go().catch(parts.desk.onFault);
  };

  const listen = (made: Client, desk: Desk): void => {
    const { onFault } = desk;
    const is = made;
    /** Shards whose line is lost: what they bring before they are back happened meanwhile. */
    const away = new Set<number>();
    const back = (): void => {
      connected.resolve();
      sender.kick();
      for (const room of desk.rooms.all()) room.refresh();
    };
    const isBack = (shard: number): void => {
      away.delete(shard);
      back();
    };
    made.on(Events.ShardReady, isBack);
    made.on(Events.ShardResume, isBack);
    made.on(Events.ShardReconnecting, (shard) => void away.add(shard));
    made.on(Events.Error, onFault);
    made.on(Events.ShardError, () => undefined);
    made.on(Events.ShardDisconnect, ({ code }) => {
      if (is !== client || closed) return;
      if (code === DISALLOWED && !withoutContent) {
        withoutContent = true;
        return again();
      }
      const why = whyOver(code);
      if (why !== undefined) end(why);
    });
    made.on(Events.Invalidated, () => {
      if (is === client && !closed) again();
    });
    const on = <T>(event: Dispatch, take: (data: T, shard: number) => void): void => {
      made.ws.on(event, (data: T, shard: number) => {
        try {
          take(data, shard);
        } catch (error) {
          onFault(error);
        }
      });
    };
    on<APIInteraction>(
      Dispatch.InteractionCreate,
      (data, shard) => void hearInteraction(data, desk, away.has(shard)),
    );
    on<GatewayMessageCreateDispatchData>(
      Dispatch.MessageCreate,
      (data, shard) => void hearMessage(data, desk, away.has(shard)),
    );
    on<GatewayReadyDispatchData>(Dispatch.Ready, ({ guilds: all, shard }) => {
      const [mine = 0, count = 1] = shard ?? [];
      const isOurs = (guild: string): boolean =>
        (BigInt(guild) >> 22n) % BigInt(count) === BigInt(mine);
      guilds.all(
        all.map(({ id }) => id),
        isOurs,
      );
    });
    on<GatewayGuildCreateDispatchData>(Dispatch.GuildCreate, (data) => {
      guilds.seen(data);
      if (data.unavailable === true) return;
      const states = data.voice_states.map((one) => voiceStateSchema.parse(one));
      desk.calls.seeGuild(data.id, states);
    });
    on(Dispatch.VoiceStateUpdate, (data) => {
      const state = voiceStateSchema.parse(data);
      if (state.guild_id !== undefined) desk.calls.see(state.guild_id, state);
    });
    on<GatewayGuildDeleteDispatchData>(Dispatch.GuildDelete, ({ id, unavailable }) => {
      // An outage of Discord's own is no farewell.
      if (unavailable !== true) guilds.left(id);
    });
    on<GatewayChannelDeleteDispatchData>(Dispatch.ChannelDelete, ({ id }) =>
      guilds.channelGone(id),
    );
    on<GatewayChannelUpdateDispatchData>(Dispatch.ChannelUpdate, (channel) => {
      if (!("guild_id" in channel) || channel.guild_id === undefined) return;
      const overwrites = "permission_overwrites" in channel ? channel.permission_overwrites : [];
      const { id, guild_id: guild, name } = channel;
      const changed = { id, name: name ?? "", overwrites: overwrites ?? [] };
      guilds.channelChanged(changed, guild, rolesOf(made, guild));
      sender.kick();
    });
    on<GatewayGuildRoleUpdateDispatchData>(
      Dispatch.GuildRoleUpdate,
      ({ guild_id: guild, role }) => {
        // The library takes note of it after us.
        const others = rolesOf(made, guild).filter(({ id }) => id !== role.id);
        guilds.rolesChanged(guild, [...others, role], (channel) => overwritesOf(made, channel));
        back();
      },
    );
  };

  go().catch(parts.desk.onFault);

  return {
    connected: connected.promise,
    badToken: () => end(BAD_TOKEN),
    async close() {
      closed = true;
      // A socket that is just being opened may take its time to close; nobody waits for it.
      const farewell = new Promise<void>((done) => void wire.setTimer(FAREWELL, done));
      await Promise.race([client?.destroy(), farewell]);
    },
  };
}

/** The roles of a guild, as the library remembers them. */
const rolesOf = ({ guilds }: Client, guild: string) =>
  [...(guilds.cache.get(guild)?.roles.cache.values() ?? [])].map(({ id, permissions }) => ({
    id,
    permissions: String(permissions.bitfield),
  }));

/** What a channel changes for roles and members, as the library remembers it. */
function overwritesOf({ channels }: Client, id: string): readonly Overwrite[] | undefined {
  const channel = channels.cache.get(id);
  if (channel === undefined || !("permissionOverwrites" in channel)) return undefined;
  return [...channel.permissionOverwrites.cache.values()].map(({ id: whose, allow, deny }) => ({
    id: whose,
    allow: String(allow.bitfield),
    deny: String(deny.bitfield),
  }));
}

/** As the library calls a token it was refused with. */
const isInvalidToken = (error: unknown): boolean =>
  error instanceof Error && "code" in error && error.code === "TokenInvalid";
