import { farewell } from "../../../conversation/farewell.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { isZone } from "../../../domain/units/zone.ts";
import type { Api } from "../delivery/api.ts";
import { failureOf } from "../delivery/failure.ts";
import type { Kept } from "../directory/kept.ts";
import { newPlace, type Place } from "../directory/record.ts";
import { type Person, withMember } from "../people/membership.ts";
import type { Room } from "../rooms/room.ts";
import { keyOf, type Rooms } from "../rooms/rooms.ts";
import { sayFarewell } from "../rooms/say-farewell.ts";
import type { Calls } from "../voice/calls.ts";
import * as words from "../voice/voice-words.ts";
import { cleanOutgoing } from "../words/clean-outgoing.ts";
import { type Inspected, inspectChannel } from "./inspect-channel.ts";
import { inspectVoice } from "./inspect-voice.ts";
import { maySee, missingNeeds, missingWishes } from "./permissions.ts";

/** A word of an administrator, as it came. */
export type Administered = {
  /** "open", "member add" and so on. */
  readonly word: string;
  readonly options: Readonly<Record<string, unknown>>;
  readonly guild: string;
  readonly channel: string;
  readonly channelName: string;
  readonly administrator: Person;
  /** What the bot may do in the channel, as sent along with the command. */
  readonly mine: bigint;
  /** Somebody named in an option. */
  readonly person?: Person | undefined;
};

export type Administration = {
  readonly rooms: Rooms;
  readonly api: Api;
  readonly bot: string;
  readonly now: () => Instant;
  readonly calls: Calls;
  /** Opens a bench there, or makes it. */
  readonly openRoom: (key: string, place: Place, zone: string | undefined) => Promise<Room>;
  readonly onFault: (error: unknown) => void;
};

/** What an administrator asked for, done, and told in plain sentences. */
export async function administer(asked: Administered, parts: Administration): Promise<string> {
  if (asked.word === "open") return open(asked, parts);
  const room = parts.rooms.inChannel(asked.channel);
  if (room === undefined) {
    return "There is no bench in this channel. Say /wetside open here first.";
  }
  const { place } = room;
  const { options, person } = asked;
  switch (asked.word) {
    case "close":
      parts.calls.leave(room);
      return close(room, parts);
    case "join":
      return parts.calls.join(
        room,
        asked.administrator.id,
        optionOf(options.channel) ?? place.value.voiceChannel,
      );
    case "leave":
      return parts.calls.leave(room);
    case "voice":
      return nameVoice(room, optionOf(options.channel), parts);
    case "show":
      return [...describe(place.value), ...(await amiss(place.value, parts))].join("\n");
    case "member add":
      if (person === undefined) return "Name somebody.";
      await place.change((value) => withMember(value, person, true));
      return `${named(place.value, person.id)} may use this bench.${await blind(asked, parts)}`;
    case "member remove":
      if (person === undefined) return "Name somebody.";
      return removeMember(place, person);
    case "role": {
      const role = typeof options.role === "string" ? options.role : undefined;
      if (role === asked.guild) {
        return "That is everyone in the server. A bench is private: choose a smaller role.";
      }
      await place.change(({ role: _, ...value }) =>
        role === undefined ? value : { ...value, role },
      );
      return role === undefined
        ? "Only people who are listed may use this bench now."
        : `Everyone with <@&${role}> may use this bench.`;
    }
    case "group-channel":
      return nameGroup(place, options.channel, parts);
    default:
      return "I do not know that word. Say /wetside show.";
  }
}

const optionOf = (value: unknown): string | undefined =>
  typeof value === "string" ? value : undefined;

/** The voice channel the bench speaks in from here on. */
async function nameVoice(
  { place }: Room,
  channel: string | undefined,
  { api, bot }: Administration,
): Promise<string> {
  if (channel !== undefined) {
    const seen = await inspectVoice(api, channel, place.value.guild, bot);
    if (seen === "unseen") return words.unseen(channel);
    if (seen === "no voice channel") return words.noVoiceChannel;
    if (seen.lacks.length > 0) return words.mayNot(channel, seen.lacks);
  }
  await place.change(({ voiceChannel: _, ...value }) =>
    channel === undefined ? value : { ...value, voiceChannel: channel },
  );
  return words.named(channel);
}

async function open(asked: Administered, parts: Administration): Promise<string> {
  const { rooms } = parts;
  const here = rooms.inChannel(asked.channel);
  if (here !== undefined) {
    return [`There is a bench in this channel already.`, ...describe(here.place.value)].join("\n");
  }
  const zone = typeof asked.options.zone === "string" ? asked.options.zone.trim() : undefined;
  if (zone !== undefined && !isZone(zone)) {
    return `"${cleanOutgoing(zone)}" is no time zone I know. Give one like Europe/Lisbon.`;
  }
  const moved = typeof asked.options.bench === "string" ? asked.options.bench : undefined;
  const before = moved === undefined ? undefined : rooms.byKey(moved);
  if (moved !== undefined && (before === undefined || before.place.value.guild !== asked.guild)) {
    return "I know no such bench in this server. Leave that option out for a new bench.";
  }
  const needs = missingNeeds(asked.mine);
  if (needs.length > 0) {
    const list = needs.map(({ name, why }) => `- ${name}, ${why}`);
    return [
      "I may not do enough in this channel. In its settings, under Permissions, add me and allow:",
      ...list,
      "Then say /wetside open again.",
    ].join("\n");
  }
  const seen = await inspectChannel(parts.api, asked.channel, parts.bot);
  if (!seen.isText) return "A bench needs an ordinary text channel. Say /wetside open in one.";
  if (seen.isPublic) return visible;
  const room = await place(asked, seen, before, zone, parts);
  return welcome(room, asked, seen, parts.calls.able);
}

const visible = [
  "Everyone in the server can see this channel, so I open no bench here: a bench is private.",
  "Make it private: channel settings, Permissions, switch off View Channel for @everyone, then add me and your members.",
  "Then say /wetside open again.",
].join("\n");

async function place(
  asked: Administered,
  seen: Inspected,
  before: Room | undefined,
  zone: string | undefined,
  { rooms, openRoom }: Administration,
): Promise<Room> {
  const { guild, channel, administrator } = asked;
  const key = before?.key ?? keyOf(channel);
  const known = before ?? rooms.byKey(key);
  const where = { guild, channel, channelName: seen.name, openedBy: administrator.id };
  if (known !== undefined) {
    const { closed: _, ...old } = known.place.value;
    const moved = withMember({ ...old, ...where, statuses: {}, making: {} }, administrator, true);
    await known.place.change(({ outbox, nextPost }) => ({ ...moved, outbox, nextPost }));
    known.refresh();
    return known;
  }
  return openRoom(key, withMember(newPlace(where), administrator, true), zone);
}

function welcome(
  room: Room,
  { mine }: Administered,
  { seenBy }: Inspected,
  speaks: boolean,
): string {
  const { bench } = room.keeper.record;
  const wishes = missingWishes(mine);
  return [
    "The bench is open. This channel is not visible to @everyone.",
    ...(seenBy.length === 0
      ? []
      : [`These roles can see it as well: ${seenBy.map(cleanOutgoing).join(", ")}.`]),
    ...describe(room.place.value),
    `Time zone: ${cleanOutgoing(bench.zone)}; say "set zone" and yours to change it.`,
    ...wishes.map(({ name, why }) => `It would help to allow me ${name}, ${why}.`),
    "Next: /wetside member add, or /wetside role. Then type /hello, or /say and any sentence.",
    ...(speaks ? ["To talk instead of typing: go into a voice channel and say join here."] : []),
  ].join("\n");
}

const named = ({ members }: Place, id: string): string =>
  `<@${id}> (${cleanOutgoing(members[id]?.name ?? "?")} to the bench)`;

function describe(value: Place): readonly string[] {
  const listed = Object.entries(value.members).filter(([, { listed: is }]) => is);
  return [
    listed.length === 0
      ? "Nobody is listed yet."
      : `Listed: ${listed.map(([id]) => named(value, id)).join(", ")}.`,
    ...(value.role === undefined ? [] : [`Everyone with <@&${value.role}> may use it too.`]),
    value.groupChannel === undefined
      ? "No channel is named for sharing."
      : `Finished runs may be shared in <#${value.groupChannel}>.`,
    ...(value.voiceChannel === undefined ? [] : [words.named(value.voiceChannel)]),
  ];
}

/** What would keep the bench from working, looked at anew. */
async function amiss(value: Place, { api, bot }: Administration): Promise<readonly string[]> {
  const seen = await inspectChannel(api, value.channel, bot).catch((error: unknown) => {
    if (failureOf(error).kind === "no-permission") return undefined;
    throw error;
  });
  if (seen === undefined) return ["Amiss: I cannot see this channel. Let me in under Permissions."];
  const needs = missingNeeds(seen.mine);
  const wishes = missingWishes(seen.mine);
  return [
    ...(seen.isPublic
      ? ["Amiss: everyone in the server can see this channel. Make it private."]
      : ["The channel is not visible to @everyone."]),
    ...needs.map(({ name, why }) => `Amiss: I lack ${name}, ${why}.`),
    ...wishes.map(({ name, why }) => `I lack ${name}, ${why}; the rest works.`),
  ];
}

/** Whoever stands at the sink is told the rest of an open run by the clock before the bench closes. */
async function close(room: Room, { api, onFault }: Administration): Promise<string> {
  const { place } = room;
  const open = farewell(room.keeper.record.bench, room.now());
  await sayFarewell([room], api, onFault);
  await place.change((value) => ({
    ...value,
    closed: "by an administrator",
    outbox: [],
    statuses: {},
    making: {},
    offers: {},
  }));
  return [
    "The bench is closed: I say and hear nothing here any more. All it knows is kept; /wetside open brings it back.",
    ...(open === undefined ? [] : ["A run is open, and nobody is told its cues any more:"]),
    ...(open?.lines ?? []).map(cleanOutgoing),
  ].join("\n");
}

async function removeMember(place: Kept<Place>, { id }: Person): Promise<string> {
  if (place.value.members[id]?.listed !== true) return `<@${id}> is not listed here.`;
  await place.change((value) => {
    const member = value.members[id];
    return member === undefined
      ? value
      : { ...value, members: { ...value.members, [id]: { ...member, listed: false } } };
  });
  const byRole = place.value.role === undefined ? "" : " Whoever has the role may still use it.";
  return `<@${id}> is not listed any more.${byRole}`;
}

/** Somebody who may use the bench but cannot see the channel is told of. */
async function blind(
  { person, guild, channel }: Administered,
  { api }: Administration,
): Promise<string> {
  if (person === undefined) return "";
  try {
    const seen = await inspectChannel(api, channel, person.id);
    return guild === seen.guild && !maySee(seen.mine)
      ? " They cannot see this channel yet: let them in under its Permissions."
      : "";
  } catch (error) {
    return failureOf(error).kind === "gone" ? " They are not in this server." : "";
  }
}

async function nameGroup(
  place: Kept<Place>,
  channel: unknown,
  { api, bot }: Administration,
): Promise<string> {
  if (typeof channel !== "string") {
    await place.change(({ groupChannel: _, ...value }) => value);
    return "Sharing is off: no channel is named for it.";
  }
  if (channel === place.value.channel) return "That is this channel itself. Name the film group's.";
  try {
    const { mine } = await inspectChannel(api, channel, bot);
    const needs = missingNeeds(mine);
    if (needs.length > 0) {
      return `I may not write there. Allow me ${needs.map(({ name }) => name).join(" and ")} in <#${channel}>, then say this again.`;
    }
  } catch (error) {
    const { kind } = failureOf(error);
    if (kind === "no-permission" || kind === "gone") {
      return `I cannot see <#${channel}>. Let me in under its Permissions, then say this again.`;
    }
    throw error;
  }
  await place.change((value) => ({ ...value, groupChannel: channel }));
  return `Finished runs may be shared in <#${channel}>: a member says share, looks at what would go there, and says yes. Private notes stay here.`;
}
