import {
  type APIChatInputApplicationCommandInteraction,
  type APIInteraction,
  type APIMessageComponentInteraction,
  type APIModalSubmitInteraction,
  ApplicationCommandType,
  InteractionType,
} from "discord-api-types/v10";
import { listeningOf } from "../../../conversation/listening.ts";
import { newBench } from "../../../domain/session/bench.ts";
import type { Reply } from "../../../reply/reply.ts";
import { faultReply } from "../../console/fault.ts";
import { type Person, speakerOf } from "../people/membership.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { administer } from "../set-up/administer.ts";
import { ADMINISTER, MINE } from "../set-up/definition.ts";
import { mayManage } from "../set-up/permissions.ts";
import { readWish } from "../voice/wishes.ts";
import { customId } from "../words/custom-id.ts";
import { callsForAid } from "../words/emergency-words.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";
import { readInteraction, type SlashOption, slashCommandOf } from "../words/read-interaction.ts";
import { readPress } from "../words/read-press.ts";
import { readTeachForm } from "../words/read-teach-form.ts";
import { takeTeachForm } from "../words/take-teach-form.ts";
import { answerAt } from "./answer-at.ts";
import { type Answering, answering } from "./answering.ts";
import type { Desk } from "./desk.ts";
import { benchOf, chooseBench, chooseReminders } from "./direct-bench.ts";
import { firstAid, renderApart } from "./first-aid.ts";
import { grant } from "./grant.ts";
import {
  CHOOSE,
  chosenBench,
  noBench,
  notAMember,
  notHere,
  remindersGo,
  tooMuch,
  whichBench,
} from "./own-words.ts";
import { answerOffer, dropOffer, SHARE_NO, SHARE_YES } from "./sharing.ts";
import { suggestAt } from "./suggest-at.ts";

type Slash = APIChatInputApplicationCommandInteraction;
type Heard = Slash | APIMessageComponentInteraction | APIModalSubmitInteraction;

/** Older than this, ms, an interaction takes no answer: it was sent again, or held up for long. */
const TOO_OLD = 15 * 60_000;
/** The first instant that ids count from. */
const EPOCH = 1_420_070_400_000;

/** Somebody used a command, pressed a button, filled in a form or types an option. Never rejects. */
export async function hearInteraction(interaction: APIInteraction, desk: Desk): Promise<void> {
  try {
    const age = desk.clock.wall() - (Number(BigInt(interaction.id) >> 22n) + EPOCH);
    if (age > TOO_OLD || !desk.seen.first(interaction.id)) return;
    switch (interaction.type) {
      case InteractionType.ApplicationCommandAutocomplete:
        return await suggestAt(interaction, desk);
      case InteractionType.ApplicationCommand:
        if (interaction.data.type !== ApplicationCommandType.ChatInput) return;
        return await hearCommand(interaction as Slash, desk);
      case InteractionType.MessageComponent:
        return await hearPress(interaction, desk);
      case InteractionType.ModalSubmit:
        return await hearForm(interaction, desk);
    }
  } catch (error) {
    desk.onFault(error);
  }
}

export function personOf(interaction: APIInteraction): Person | undefined {
  const { member } = interaction;
  const user = member?.user ?? interaction.user;
  if (user === undefined) return undefined;
  const display = member?.nick ?? user.global_name ?? user.username;
  return { id: user.id, display, roles: member?.roles };
}

/** The bench of the channel something was done in; undefined in a direct message. */
const roomHere = (interaction: APIInteraction, desk: Desk): Room | undefined =>
  interaction.guild_id === undefined || interaction.channel?.id === undefined
    ? undefined
    : desk.rooms.inChannel(interaction.channel.id);

type Exchange = {
  readonly person: Person;
  readonly answer: Answering;
  /** An answer for this person alone, in the channel's own words. */
  alone(text: string): Promise<void>;
};

/** @param ephemeral  whether an answer that takes long is promised to this person alone */
function exchange(interaction: Heard, desk: Desk, ephemeral: boolean): Exchange | undefined {
  const person = personOf(interaction);
  if (person === undefined) return undefined;
  const channel = interaction.channel?.id;
  const answer = answering(interaction, {
    api: desk.api,
    clock: desk.clock,
    ephemeral,
    elsewhere: (payloads) => {
      // What was for one pair of eyes is not shown to all.
      if (channel === undefined || payloads.some(isHidden)) return;
      const nonce = BigInt(interaction.id).toString(36);
      const lines = payloads.map((one, index) => ({ payload: one, nonce: `i${nonce}-${index}` }));
      desk.chat.say(channel, lines);
    },
    onFault: desk.onFault,
  });
  const alone = (text: string): Promise<void> =>
    answer.give([payload(text, { ephemeral: interaction.guild_id !== undefined })]);
  return { person, answer, alone };
}

const isHidden = ({ flags }: MessagePayload): boolean => (flags & 64) !== 0;

async function hearCommand(interaction: Slash, desk: Desk): Promise<void> {
  const { data } = interaction;
  const room = roomHere(interaction, desk);
  const isDirect = interaction.guild_id === undefined;
  const own = data.name === ADMINISTER || data.name === MINE;
  const talk = exchange(interaction, desk, own || (room === undefined && !isDirect));
  if (talk === undefined) return;
  const { person } = talk;
  if (isForAid(interaction, desk)) return aid(interaction, room, talk, desk);
  if (desk.budget.spend(person.id, desk.now()) !== "heard") return talk.alone(tooMuch);
  if (data.name === ADMINISTER) return hearAdministrator(interaction, talk, desk);
  const found = await benchFor(interaction, room, talk, desk);
  if (found === undefined) return;
  if (data.name === MINE) return hearMine(interaction, found, talk, desk);
  await dropOffer(found.room, found.speaker);
  const { bench } = found.room.keeper.record;
  const read = readInteraction(data, desk.commands, listeningOf(bench, desk.now()));
  const wish = "text" in read ? readWish(read.text) : undefined;
  if (wish !== undefined) {
    return talk.answer.give([payload(await grant(wish, found.room, found.speaker, desk))]);
  }
  const hidden = (reply: Reply): boolean => !isDirect && reply.kind === "refusal";
  const { payloads, picture } = await answerAt(found.room, found.speaker, () => read, hidden);
  await talk.answer.give(payloads, picture);
}

/** First aid by its command, or called for in the words of any. */
function isForAid({ data }: Slash, { commands }: Desk): boolean {
  const meant = slashCommandOf(data, commands);
  if (meant?.command.name === "emergency") return true;
  const words = (options: readonly SlashOption[]): boolean =>
    options.some(
      ({ value, options: inner = [] }) =>
        (typeof value === "string" && callsForAid(value)) || words(inner),
    );
  return words((data.options ?? []) as readonly SlashOption[]);
}

async function aid(
  { data, guild_id }: Slash,
  room: Room | undefined,
  { person, answer }: Exchange,
  desk: Desk,
): Promise<void> {
  const speaker = room === undefined ? undefined : speakerOf(room.place, person, desk.onFault);
  const now = desk.now();
  if (room !== undefined && speaker !== undefined) {
    const listening = listeningOf(room.keeper.record.bench, now);
    const read = readInteraction(data, desk.commands, listening);
    const { payloads } = await answerAt(room, speaker, () => read);
    return answer.give(payloads);
  }
  const read = readInteraction(data, desk.commands, listeningOf(newBench("none", "UTC"), now));
  const text =
    "text" in read ? read.text : "command" in read ? String(read.fields.kind ?? "first aid") : "";
  const reply = firstAid(text === "" ? "first aid" : text, now, desk.commands);
  await answer.give(renderApart(reply, now, guild_id !== undefined && room === undefined));
}

/** Whose bench a command is for, or nothing once that was answered. */
async function benchFor(
  interaction: Slash,
  room: Room | undefined,
  { person, answer, alone }: Exchange,
  desk: Desk,
): Promise<{ room: Room; speaker: Speaker } | undefined> {
  if (room !== undefined) {
    const speaker = speakerOf(room.place, person, desk.onFault);
    if (speaker !== undefined) return { room, speaker };
    await alone(notAMember);
    return undefined;
  }
  if (interaction.guild_id !== undefined) {
    const others = desk.rooms
      .inGuild(interaction.guild_id)
      .filter(({ place }) => speakerOf(place, person, desk.onFault) !== undefined);
    await alone(notHere(others));
    return undefined;
  }
  const found = await benchOf(person, desk);
  if (found.kind === "one") return found;
  if (found.kind === "none") await alone(noBench);
  else await answer.give([whichBench(found.rooms, false)]);
  return undefined;
}

async function hearAdministrator(
  interaction: Slash,
  { person, alone }: Exchange,
  desk: Desk,
): Promise<void> {
  const { member, guild_id: guild, channel } = interaction;
  if (member === undefined || guild === undefined || channel === undefined) return;
  // Also checked here: what a server lets its members see of commands can be changed by it.
  if (!mayManage(BigInt(member.permissions))) {
    return alone("Only who may manage the server sets up a bench.");
  }
  const { word, options } = wordOf((interaction.data.options ?? []) as readonly SlashOption[]);
  try {
    const told = await administer(
      {
        word,
        options,
        guild,
        channel: channel.id,
        channelName: channel.name ?? "",
        administrator: person,
        mine: BigInt(interaction.app_permissions),
        person: namedIn(interaction, options.user),
      },
      desk,
    );
    await alone(told);
  } catch (error) {
    desk.onFault(error);
    await alone(faultReply(error).title);
  }
}

/** "member add" and its options, however deep they lie. */
function wordOf(
  options: readonly SlashOption[],
  path: readonly string[] = [],
): { readonly word: string; readonly options: Readonly<Record<string, unknown>> } {
  const [first] = options;
  if (first?.options !== undefined && first.value === undefined) {
    return wordOf(first.options, [...path, first.name]);
  }
  if (path.length === 0 && first !== undefined && first.value === undefined) {
    return { word: first.name, options: {} };
  }
  return {
    word: path.join(" "),
    options: Object.fromEntries(options.map(({ name, value }) => [name, value])),
  };
}

function namedIn({ data }: Slash, id: unknown): Person | undefined {
  const user = typeof id === "string" ? data.resolved?.users?.[id] : undefined;
  if (user === undefined || user.bot === true) return undefined;
  const member = data.resolved?.members?.[user.id];
  return {
    id: user.id,
    display: member?.nick ?? user.global_name ?? user.username,
    roles: member?.roles,
  };
}

async function hearMine(
  { data, guild_id }: Slash,
  { room, speaker }: { room: Room; speaker: Speaker },
  { person, alone, answer }: Exchange,
  desk: Desk,
): Promise<void> {
  const { word, options } = wordOf((data.options ?? []) as readonly SlashOption[]);
  if (word === "reminders") {
    const where = options.where === "dm" ? "dm" : "channel";
    await chooseReminders(room, speaker, where);
    return alone(remindersGo(where, room));
  }
  if (guild_id !== undefined) {
    await chooseBench(desk, person.id, room.key);
    return alone(chosenBench(room));
  }
  await chooseBench(desk, person.id, undefined);
  const found = await benchOf(person, desk);
  if (found.kind === "several") return answer.give([whichBench(found.rooms, false)]);
  await alone(found.kind === "one" ? chosenBench(found.room) : noBench);
}

/** Who may press a button of a bench: a member, in its channel or in a direct message. */
async function atButton(
  interaction: APIMessageComponentInteraction | APIModalSubmitInteraction,
  talk: Exchange,
  desk: Desk,
): Promise<{ room: Room; speaker: Speaker } | undefined> {
  const { person } = talk;
  const read = customId.read(interaction.data.custom_id);
  const isDirect = interaction.guild_id === undefined;
  const meant = read.kind === "button" ? desk.rooms.byKey(read.bench) : undefined;
  const room =
    isDirect && meant?.place.value.closed === undefined ? meant : roomHere(interaction, desk);
  if (room === undefined) {
    await talk.alone("That button belongs to no bench that is open here. Nothing was changed.");
    return undefined;
  }
  const roles = person.roles ?? (await desk.rolesOf(room.place.value.guild, person.id));
  const speaker =
    roles === "gone" ? undefined : speakerOf(room.place, { ...person, roles }, desk.onFault);
  if (speaker === undefined) await talk.alone(notAMember);
  return speaker === undefined ? undefined : { room, speaker };
}

async function hearPress(interaction: APIMessageComponentInteraction, desk: Desk): Promise<void> {
  const talk = exchange(interaction, desk, false);
  if (talk === undefined) return;
  if (desk.budget.spend(talk.person.id, desk.now()) !== "heard") return talk.alone(tooMuch);
  const found = await atButton(interaction, talk, desk);
  if (found === undefined) return;
  const { room, speaker } = found;
  const id = interaction.data.custom_id;
  const read = customId.read(id);
  if (read.kind === "button" && read.bench === room.key) {
    if (read.word === CHOOSE) return choose(interaction, room, speaker, talk, desk);
    if (read.word === SHARE_YES || read.word === SHARE_NO) {
      const yes = read.word === SHARE_YES;
      const told = await answerOffer(room, speaker, yes, desk.api, read.asked);
      return talk.answer.give([payload(told)]);
    }
  }
  const pressed = () => {
    const { record } = room.keeper;
    const typed = desk.typed.get(`${room.key} ${speaker.id}`);
    const at = { benchKey: room.key, record, who: speaker.name, now: room.now() };
    return readPress(id, { ...at, typed });
  };
  const first = pressed();
  if ("form" in first) return talk.answer.form(first.form);
  const isDirect = interaction.guild_id === undefined;
  const { payloads, picture } = await answerAt(
    room,
    speaker,
    () => {
      const meant = pressed();
      return "form" in meant ? first : meant;
    },
    (reply) => !isDirect && reply.kind === "refusal",
  );
  await talk.answer.give(payloads, picture);
}

/** The bench for direct messages was chosen: what was said before the question is heard now. */
async function choose(
  { guild_id }: APIMessageComponentInteraction,
  room: Room,
  speaker: Speaker,
  { answer, alone }: Exchange,
  desk: Desk,
): Promise<void> {
  await chooseBench(desk, speaker.id, room.key);
  const held = desk.heldBack.get(speaker.id);
  desk.heldBack.delete(speaker.id);
  const fresh = held !== undefined && desk.now() - held.at < 120_000 ? held : undefined;
  if (fresh === undefined || guild_id !== undefined) return alone(chosenBench(room));
  const { payloads, picture } = await answerAt(room, speaker, () => ({ text: fresh.text }));
  await answer.give([payload(chosenBench(room)), ...payloads], picture);
}

async function hearForm(interaction: APIModalSubmitInteraction, desk: Desk): Promise<void> {
  const talk = exchange(interaction, desk, false);
  if (talk === undefined) return;
  if (desk.budget.spend(talk.person.id, desk.now()) !== "heard") return talk.alone(tooMuch);
  const found = await atButton(interaction, talk, desk);
  if (found === undefined) return;
  const { room, speaker } = found;
  const { record } = room.keeper;
  const read = readTeachForm(interaction.data as Parameters<typeof readTeachForm>[0], {
    benchKey: room.key,
    record,
  });
  if ("refusal" in read) {
    return talk.answer.give(room.render(read.refusal, speaker.name, true));
  }
  const { reply, typed } = await takeTeachForm(
    read.answers,
    (call) => room.hear(() => call, speaker),
    () => room.keeper.record.bench,
  ).catch((error: unknown) => ({ reply: faultReply(error), typed: {} }));
  if (Object.keys(typed).length === 0) desk.typed.delete(`${room.key} ${speaker.id}`);
  else desk.typed.set(`${room.key} ${speaker.id}`, typed);
  await talk.answer.give(room.render(reply, speaker.name));
}
