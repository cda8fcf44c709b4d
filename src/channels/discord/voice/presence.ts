import { Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "../delivery/api.ts";
import type { Person } from "../people/membership.ts";

/** A voice state, as far as it says who is where. */
export const voiceStateSchema = z.object({
  guild_id: z.string().optional(),
  channel_id: z.string().nullable(),
  user_id: z.string(),
  member: z
    .object({
      nick: z.string().nullish(),
      roles: z.array(z.string()),
      user: z
        .object({
          username: z.string(),
          global_name: z.string().nullish(),
          bot: z.boolean().optional(),
        })
        .optional(),
    })
    .optional(),
});
export type VoiceState = z.infer<typeof voiceStateSchema>;

type Seen = { readonly channel: string; readonly person: Person | undefined };

/** Who is in which voice channel, as the gateway tells it. */
export class Presence {
  readonly #guilds = new Map<string, Map<string, Seen>>();
  readonly #api: Api;

  constructor(api: Api) {
    this.#api = api;
  }

  /** A guild as it is now. */
  reset(guild: string, states: readonly VoiceState[]): void {
    const old = this.#guilds.get(guild);
    this.#guilds.set(guild, new Map());
    for (const state of states) this.see(guild, state, old?.get(state.user_id)?.person);
  }

  see(guild: string, state: VoiceState, known?: Person): void {
    const people = this.#guilds.get(guild) ?? new Map<string, Seen>();
    this.#guilds.set(guild, people);
    const { user_id: id, channel_id: channel, member } = state;
    if (channel === null) {
      people.delete(id);
      return;
    }
    if (member?.user?.bot === true) return;
    const person = member === undefined ? (known ?? people.get(id)?.person) : personOf(id, member);
    people.set(id, { channel, person });
  }

  channelOf(guild: string, user: string): string | undefined {
    return this.#guilds.get(guild)?.get(user)?.channel;
  }

  /** Somebody in a channel, with what is known of them. */
  person(guild: string, user: string): Person | undefined {
    const seen = this.#guilds.get(guild)?.get(user);
    return seen === undefined
      ? undefined
      : (seen.person ?? { id: user, display: "member", roles: undefined });
  }

  inChannel(guild: string, channel: string): readonly string[] {
    return [...(this.#guilds.get(guild) ?? [])]
      .filter(([, seen]) => seen.channel === channel)
      .map(([user]) => user);
  }

  /** Asks for the names and roles of people in a channel of whom neither is known. */
  async learn(guild: string, channel: string): Promise<void> {
    const people = this.#guilds.get(guild);
    for (const user of this.inChannel(guild, channel)) {
      if (people?.get(user)?.person !== undefined) continue;
      const answer = await this.#api
        .call("get", Routes.guildMember(guild, user))
        .catch(() => undefined);
      const read = voiceStateSchema.shape.member.unwrap().safeParse(answer);
      const seen = people?.get(user);
      if (read.success && seen !== undefined)
        people?.set(user, { ...seen, person: personOf(user, read.data) });
    }
  }
}

const personOf = (id: string, member: NonNullable<VoiceState["member"]>): Person => ({
  id,
  display: member.nick ?? member.user?.global_name ?? member.user?.username ?? "member",
  roles: member.roles,
});
