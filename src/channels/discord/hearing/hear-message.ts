import { type GatewayMessageCreateDispatchData, MessageType } from "discord-api-types/v10";
import { firstAid } from "../../../conversation/first-aid.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { Line } from "../delivery/chat.ts";
import { type Person, speakerOf } from "../people/membership.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { readWish } from "../voice/wishes.ts";
import { cleanIncoming } from "../words/clean-incoming.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";
import { type Answer, answerAt } from "./answer-at.ts";
import type { Desk } from "./desk.ts";
import { benchOf, chooseReminders } from "./direct-bench.ts";
import { grant } from "./grant.ts";
import { tooLate } from "./heard-late.ts";
import {
  noBenchHere,
  noFiles,
  notAMember,
  notHere,
  readReminderChoice,
  remindersGo,
  tooMuch,
  whichBench,
} from "./own-words.ts";
import { renderApart } from "./render-apart.ts";
import { answerOffer, openOffer } from "./sharing.ts";
import { takeArchive } from "./take-archive.ts";

type Heard = GatewayMessageCreateDispatchData;

/** A message as this module goes about it. */
type Incoming = {
  readonly message: Heard;
  readonly person: Person;
  readonly isMention: boolean;
  readonly isDirect: boolean;
  readonly isReplay: boolean;
  /** What was written, as one clean line, or why it is not read. */
  readonly read: ReturnType<typeof cleanIncoming>;
};

/**
 * Somebody wrote something where the bot can hear it. Never rejects.
 *
 * @param isReplay  it was written while the line was lost, and is brought now
 */
export async function hearMessage(message: Heard, desk: Desk, isReplay = false): Promise<void> {
  try {
    if (message.author.id === desk.bot) return seeOwn(message, desk);
    if (!isForPeople(message) || !desk.seen.first(message.id)) return;
    const incoming = { ...readMessage(message, desk), isReplay };
    const text = "text" in incoming.read ? incoming.read.text : "";
    const reply = firstAid({ text }, desk.now(), desk.commands);
    if (reply !== undefined) return aid(incoming, reply, desk);
    if (incoming.isDirect) return await hearDirect(incoming, desk);
    await hearInGuild(incoming, desk);
  } catch (error) {
    desk.onFault(error);
  }
}

/** What we posted is posted, whatever became of the answer to the request. */
function seeOwn({ nonce }: Heard, { attempts }: Desk): void {
  if (typeof nonce === "string") attempts.get(nonce)?.seen();
}

const isForPeople = ({ author, webhook_id, type }: Heard): boolean =>
  author.bot !== true &&
  webhook_id === undefined &&
  (type === MessageType.Default || type === MessageType.Reply);

function readMessage(message: Heard, desk: Desk): Omit<Incoming, "isReplay"> {
  const { author, member } = message;
  const isDirect = message.guild_id === undefined;
  if (isDirect) desk.direct.note(author.id, message.channel_id);
  return {
    message,
    person: {
      id: author.id,
      display: member?.nick ?? author.global_name ?? author.username,
      roles: member?.roles,
      manages:
        message.guild_id === undefined
          ? undefined
          : desk.manages(message.guild_id, author.id, member?.roles),
    },
    isMention: message.mentions.some(({ id }) => id === desk.bot),
    isDirect,
    read: cleanIncoming(message.content, desk.bot),
  };
}

/** First aid, to anyone who may call for it: at a bench, to us, or in a direct message. */
function aid(incoming: Incoming, reply: Reply, desk: Desk): void {
  const { message, person, isDirect, isMention } = incoming;
  const room = isDirect ? undefined : desk.rooms.inChannel(message.channel_id);
  if (room === undefined && !isDirect && !isMention) return;
  if (desk.aidBudget.spend(person.id, desk.now()) !== "heard") return;
  say(desk, message, { payloads: renderApart(reply, desk.now(), false) });
}

async function hearInGuild(incoming: Incoming, desk: Desk): Promise<void> {
  const { message, person, isMention } = incoming;
  const room = desk.rooms.inChannel(message.channel_id);
  if (room === undefined) {
    if (isMention && within(incoming, desk)) {
      const others = desk.rooms
        .inGuild(message.guild_id ?? "")
        .filter(({ place }) => speakerOf(place, person, desk.onFault) !== undefined);
      await tellApart(desk, person.id, message.id, notHere(others));
    }
    return;
  }
  if (!isMention && isTalkAmongPeople(message)) return;
  const speaker = speakerOf(room.place, person, desk.onFault);
  if (speaker === undefined) {
    if (isMention && within(incoming, desk))
      await tellApart(desk, person.id, message.id, notAMember);
    return;
  }
  if (within(incoming, desk)) await hearAtBench(room, speaker, incoming, desk);
}

/** Without a word of it, because that is not ours to read, or addressed to somebody else. */
function isTalkAmongPeople({ content, attachments, mentions, mention_roles }: Heard): boolean {
  const isUnread = content === "" && attachments.length === 0;
  return isUnread || mentions.length > 0 || mention_roles.length > 0;
}

async function hearDirect(incoming: Incoming, desk: Desk): Promise<void> {
  const { message, person, read } = incoming;
  // Before anything is asked of Discord for it.
  if (!within(incoming, desk)) return;
  const found = await benchOf(person, desk);
  switch (found.kind) {
    case "one":
      return hearAtBench(found.room, found.speaker, incoming, desk);
    case "several":
      if ("text" in read) {
        desk.heldBack.set(person.id, { text: read.text, at: desk.now() });
      }
      return say(desk, message, { payloads: [whichBench(found.rooms, false)] });
    case "none":
      return say(desk, message, { payloads: [payload(noBenchHere(desk.isOneOfSeveral))] });
  }
}

async function hearAtBench(
  room: Room,
  speaker: Speaker,
  incoming: Incoming,
  desk: Desk,
): Promise<void> {
  const { message, read, isDirect } = incoming;
  const { attachments, sticker_items: stickers = [] } = message;
  if (attachments.length > 0 || stickers.length > 0) {
    const text = "text" in read && stickers.length === 0 ? read.text : "";
    const taken = await takeArchive(room, speaker, text, attachments, desk);
    return say(desk, message, taken ?? { payloads: [payload(noFiles)] });
  }
  if ("refusal" in read) {
    return say(desk, message, { payloads: room.render(read.refusal, speaker.name) });
  }
  const where = readReminderChoice(read.text, isDirect);
  if (where !== undefined) {
    await chooseReminders(room, speaker, where);
    return say(desk, message, { payloads: [payload(remindersGo(where, room))] });
  }
  const yes = /^(yes|yes,? share|no)[.!]?$/i.exec(read.text)?.[1]?.toLowerCase();
  if (yes !== undefined && openOffer(room, speaker) !== undefined) {
    const told = await answerOffer(room, speaker, yes !== "no", desk.api);
    return say(desk, message, { payloads: [payload(told)] });
  }
  const late = incoming.isReplay ? tooLate(room, read.text, message.id, desk) : undefined;
  if (late !== undefined) return say(desk, message, { payloads: [late] });
  const wish = readWish(read.text);
  if (wish !== undefined) {
    const told = await grant(wish, room, speaker, desk);
    return say(desk, message, { payloads: [payload(told)] });
  }
  say(desk, message, await answerAt(room, speaker, desk.api, () => ({ text: read.text })));
}

/** True while this person's budget lasts; once it is used up, that is said once. */
function within({ message, person }: Incoming, desk: Desk): boolean {
  const spent = desk.budget.spend(person.id, desk.now());
  if (spent === "told") say(desk, message, { payloads: [payload(tooMuch)] });
  return spent === "heard";
}

function say(desk: Desk, { id, channel_id }: Heard, { payloads, attached }: Answer): void {
  const lines = linesOf(id, payloads);
  const [first, ...rest] = lines;
  if (first === undefined) return;
  const last = attached === undefined ? [] : [{ ...attachedLine(id), attached }];
  desk.chat.say(channel_id, [{ ...first, answers: id }, ...rest, ...last]);
}

const base36 = (id: string): string => BigInt(id).toString(36);

const linesOf = (id: string, payloads: readonly MessagePayload[]): readonly Line[] =>
  payloads.map((one, index) => ({ payload: one, nonce: `m${base36(id)}-${index}` }));

const attachedLine = (id: string): Line => ({ payload: payload(""), nonce: `m${base36(id)}-p` });

/** A refusal is for one person: it goes to them directly, and nowhere if they take no messages. */
async function tellApart(desk: Desk, person: string, message: string, text: string): Promise<void> {
  const channel = await desk.direct.channelOf(person).catch(() => undefined);
  if (channel !== undefined) desk.chat.say(channel, linesOf(message, [payload(text)]));
}
