import type { DiscordGatewayAdapterCreator } from "@discordjs/voice";
import type { Bench } from "../../../domain/session/bench.ts";
import { isLive } from "../../../domain/session/run.ts";
import type { Clock } from "../../../platform/clock.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { Api } from "../delivery/api.ts";
import type { Chat } from "../delivery/chat.ts";
import { isMember, speakerOf } from "../people/membership.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { inspectVoice } from "../set-up/inspect-voice.ts";
import { type Beside, createBeside } from "./beside.ts";
import { type Call, openCall } from "./call.ts";
import { QUIET, whyIdle } from "./idle.ts";
import { loadLibrary, type VoiceLibrary } from "./library.ts";
import type { Attend } from "./ports.ts";
import { Presence, type VoiceState } from "./presence.ts";
import * as words from "./voice-words.ts";

export type CallsParts = {
  /** What listens and speaks; undefined on a machine without a voice. */
  readonly attend: Attend | undefined;
  readonly api: Api;
  readonly chat: Chat;
  /** The benches' clock, by which a call is idle. */
  readonly clock: Clock;
  /** Real time. */
  readonly wire: Clock;
  /** The voice server has so long to answer, real ms; missing: ten seconds. */
  readonly patience?: number | undefined;
  readonly onFault: (error: unknown) => void;
};

/** The connected bot, as far as calls need it. */
export type Connected = {
  readonly bot: string;
  /** The library's way to a guild's voice; undefined where the bot is in no such guild. */
  readonly adapterOf: (guild: string) => DiscordGatewayAdapterCreator | undefined;
};

type Open = { readonly room: Room; readonly call: Call; channel: string; guild: string };

const PATIENCE = 10_000;
/** How often it is looked whether a call is idle, ms. */
const LOOK = 15_000;

/** The calls of all benches: at most one in a guild. A fault in one touches nothing but itself. */
export class Calls {
  readonly #parts: CallsParts;
  readonly #beside: Beside;
  readonly presence: Presence;
  readonly #calls = new Map<string, Open>();
  readonly #opening = new Set<string>();
  /** When a bench last heard a word, and when somebody of it was last in its call. */
  readonly #words = new Map<string, number>();
  readonly #company = new Map<string, number>();
  #connected: Connected | undefined;
  #library: Promise<VoiceLibrary | undefined> | undefined;
  #stopLook: (() => void) | undefined;
  #closed = false;

  constructor(parts: CallsParts) {
    this.#parts = parts;
    this.presence = new Presence(parts.api);
    this.#beside = createBeside(parts.chat, () => this.#now());
  }

  /** Whether this machine has a voice at all. */
  get able(): boolean {
    return this.#parts.attend !== undefined;
  }

  /** Connected, perhaps anew: what was open on the connection before is gone. */
  attach(connected: Connected): void {
    for (const open of [...this.#calls.values()]) {
      this.#end(open);
      this.#say(open.room, words.whyLost({ kind: "gone" }, open.channel));
    }
    this.#connected = connected;
  }

  /** A guild's voice states as they are now. */
  seeGuild(guild: string, states: readonly VoiceState[]): void {
    this.presence.reset(guild, states);
  }

  see(guild: string, state: VoiceState): void {
    this.presence.see(guild, state);
    const open = this.#inGuild(guild);
    if (open === undefined) return;
    if (state.user_id !== this.#connected?.bot) return;
    open.channel = state.channel_id ?? open.channel;
    open.call.seen(state.channel_id ?? undefined);
  }

  /** A word was said at a bench, in whatever way. */
  touched(key: string): void {
    this.#words.set(key, this.#now());
  }

  told(key: string, replies: readonly Reply[], bench: Bench): void {
    this.#calls.get(key)?.call.told(replies, bench);
  }

  /**
   * Goes into a voice channel for a bench.
   *
   * @param who      who asks
   * @param channel  named by an administrator; missing: the bench's own, or where `who` is
   * @returns what came of it, to be told
   */
  async join(room: Room, who: string, channel?: string): Promise<string> {
    const { value } = room.place;
    const library = this.able ? await this.#loaded() : undefined;
    const connected = this.#connected;
    if (library === undefined || connected === undefined) return words.noVoice;
    const present = this.presence.channelOf(value.guild, who);
    const wanted = channel ?? value.voiceChannel ?? present;
    if (wanted === undefined) return words.comeWhere;
    if (channel === undefined && wanted !== present) return words.notThere(wanted);
    const other = this.#inGuild(value.guild);
    if (other?.room === room && other.channel === wanted) return words.already(wanted);
    if (other !== undefined && other.room !== room) {
      return words.elsewhere(other.channel, other.room.place.value.channel);
    }
    if (this.#opening.has(value.guild)) return words.already(wanted);
    this.#opening.add(value.guild);
    try {
      if (other !== undefined) this.#end(other);
      return await this.#go(room, wanted, library, connected);
    } finally {
      this.#opening.delete(value.guild);
    }
  }

  leave(room: Room): string {
    const open = this.#calls.get(room.key);
    if (open === undefined) return words.notInCall;
    this.#end(open);
    return words.left(open.channel);
  }

  close(): void {
    this.#closed = true;
    this.#stopLook?.();
    for (const open of [...this.#calls.values()]) this.#end(open);
  }

  async #go(
    room: Room,
    channel: string,
    library: VoiceLibrary,
    connected: Connected,
  ): Promise<string> {
    const { attend, api, wire, patience = PATIENCE, onFault } = this.#parts;
    const { guild } = room.place.value;
    const seen = await inspectVoice(api, channel, guild, connected.bot);
    if (seen === "unseen") return words.unseen(channel);
    if (seen === "no voice channel") return words.noVoiceChannel;
    if (seen.lacks.length > 0) return words.mayNot(channel, seen.lacks);
    const adapter = connected.adapterOf(guild);
    if (adapter === undefined || attend === undefined || this.#closed) return words.noVoice;
    await this.presence.learn(guild, channel);
    let open: Open | undefined;
    let isNew = true;
    const say = (sentence: string): void => this.#say(room, sentence);
    const call = await openCall({
      library,
      guild,
      channel,
      bot: connected.bot,
      adapter,
      attend,
      wire,
      patience,
      record: () => room.keeper.record,
      now: room.now,
      speakerOf: (user) => this.#speaker(room, user),
      ask: (speaker, said) => this.#beside.ask(room, speaker, said),
      complain: say,
      onDeaf: () => say(words.cannotHear),
      onLost: (why) => {
        if (open !== undefined) this.#forget(open);
        // Whoever asked for the call is told in the answer.
        if (!isNew) say(words.whyLost(why, open?.channel ?? channel));
      },
      onFault,
    });
    open = { room, call, channel, guild };
    this.#calls.set(room.key, open);
    const now = this.#now();
    this.#words.set(room.key, now);
    this.#company.set(room.key, now);
    const how = await call.opened;
    isNew = false;
    if (how !== true) {
      this.#forget(open);
      return how.kind === "left" ? words.left(channel) : words.whyLost(how, channel);
    }
    this.#look();
    return words.joined(channel, seen.isPublic);
  }

  #loaded(): Promise<VoiceLibrary | undefined> {
    this.#library ??= loadLibrary();
    return this.#library;
  }

  #inGuild(guild: string): Open | undefined {
    return [...this.#calls.values()].find((open) => open.guild === guild);
  }

  #speaker(room: Room, user: string): Speaker | undefined {
    const { place } = room;
    if (place.value.closed !== undefined) return undefined;
    const person = this.presence.person(place.value.guild, user);
    return person === undefined ? undefined : speakerOf(place, person, this.#parts.onFault);
  }

  #say(room: Room, sentence: string): void {
    if (!this.#closed) this.#beside.say(room, sentence);
  }

  #now(): number {
    return this.#parts.clock.monotonic();
  }

  #forget(open: Open): void {
    if (this.#calls.get(open.room.key) === open) this.#calls.delete(open.room.key);
  }

  #end(open: Open): void {
    this.#forget(open);
    open.call.leave();
  }

  #look(): void {
    this.#stopLook ??= this.#parts.clock.setTimer(LOOK, () => {
      this.#stopLook = undefined;
      for (const open of [...this.#calls.values()]) this.#lookAt(open);
      if (this.#calls.size > 0 && !this.#closed) this.#look();
    });
  }

  /** Leaves a call that nobody needs any more. */
  #lookAt(open: Open) {
    const { room, guild, channel } = open;
    const { value } = room.place;
    const now = this.#now();
    if (value.closed !== undefined) return this.#end(open);
    const company = this.presence
      .inChannel(guild, channel)
      .some((user) => isMember(value, this.presence.person(guild, user) ?? noOne(user)));
    if (company) this.#company.set(room.key, now);
    const { runs } = room.keeper.record.bench;
    if (Object.values(runs).some(isLive)) this.#words.set(room.key, now);
    const idling = {
      company: this.#company.get(room.key) ?? now,
      word: this.#words.get(room.key) ?? now,
    };
    const why = whyIdle(idling, now);
    if (why === undefined) return;
    this.#end(open);
    this.#say(
      room,
      why === "nobody" ? words.nobodyLeft(channel) : words.quietFor(channel, QUIET / 60_000),
    );
  }
}

const noOne = (id: string) => ({ id, roles: [] });
