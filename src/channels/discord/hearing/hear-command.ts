import { callsForAid } from "../../../conversation/calls-for-aid.ts";
import { firstAid } from "../../../conversation/first-aid.ts";
import { listeningOf } from "../../../conversation/listening.ts";
import { newBench } from "../../../domain/session/bench.ts";
import type { Reply } from "../../../reply/reply.ts";
import { speakerOf } from "../people/membership.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { ADMINISTER, MINE } from "../set-up/definition.ts";
import { readWish } from "../voice/wishes.ts";
import { payload } from "../words/message-payload.ts";
import { readInteraction, type SlashOption, slashCommandOf } from "../words/read-interaction.ts";
import { answerAt } from "./answer-at.ts";
import type { Desk } from "./desk.ts";
import { benchOf } from "./direct-bench.ts";
import { type Exchange, exchange, roomHere, type Slash } from "./exchange.ts";
import { grant } from "./grant.ts";
import { hearAdministrator } from "./hear-administrator.ts";
import { hearMine } from "./hear-mine.ts";
import { noBenchHere, notAMember, notHere, tooMuch, whichBench } from "./own-words.ts";
import { renderApart } from "./render-apart.ts";

/** Somebody used a slash command. */
export async function hearCommand(interaction: Slash, desk: Desk): Promise<void> {
  const { data } = interaction;
  const room = roomHere(interaction, desk);
  const isDirect = interaction.guild_id === undefined;
  const own = data.name === ADMINISTER || data.name === MINE;
  const talk = exchange(interaction, desk, own || (room === undefined && !isDirect));
  if (talk === undefined) return;
  const { person } = talk;
  if (isForAid(interaction, desk)) {
    return desk.aidBudget.spend(person.id, desk.now()) === "heard"
      ? aid(interaction, room, talk, desk)
      : talk.alone(tooMuch);
  }
  if (desk.budget.spend(person.id, desk.now()) !== "heard") return talk.alone(tooMuch);
  if (data.name === ADMINISTER) return hearAdministrator(interaction, talk, desk);
  const found = await benchFor(interaction, room, talk, desk);
  if (found === undefined) return;
  if (data.name === MINE) return hearMine(interaction, found, talk, desk);
  const { bench } = found.room.keeper.record;
  const read = readInteraction(data, desk.commands, listeningOf(bench, desk.now()));
  const wish = "text" in read ? readWish(read.text) : undefined;
  if (wish !== undefined) {
    return talk.answer.give([payload(await grant(wish, found.room, found.speaker, desk))]);
  }
  const hidden = (reply: Reply): boolean => !isDirect && reply.kind === "refusal";
  const { room: at, speaker } = found;
  const { payloads, attached } = await answerAt(at, speaker, desk.api, () => read, hidden);
  await talk.answer.give(payloads, attached);
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
  { answer }: Exchange,
  desk: Desk,
): Promise<void> {
  const now = desk.now();
  const read = readInteraction(data, desk.commands, listeningOf(newBench("none", "UTC"), now));
  const plain = { command: "emergency", fields: {} };
  const said = "refusal" in read ? plain : read;
  const reply = firstAid(said, now, desk.commands) ?? firstAid(plain, now, desk.commands);
  if (reply === undefined) return;
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
  if (found.kind === "none") await alone(noBenchHere(desk.isOneOfSeveral));
  else await answer.give([whichBench(found.rooms, false)]);
  return undefined;
}
