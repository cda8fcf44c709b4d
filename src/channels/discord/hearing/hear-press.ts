import { speakerOf } from "../people/membership.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { customId } from "../words/custom-id.ts";
import { payload } from "../words/message-payload.ts";
import { readPress } from "../words/read-press.ts";
import { answerAt } from "./answer-at.ts";
import type { Desk } from "./desk.ts";
import { chooseBench } from "./direct-bench.ts";
import { type Exchange, exchange, type Filled, type Pressed, roomHere } from "./exchange.ts";
import { CHOOSE, chosenBench, notAMember, tooMuch } from "./own-words.ts";
import { answerOffer, SHARE_NO, SHARE_YES } from "./sharing.ts";

/** Who may press a button of a bench: a member, in its channel or in a direct message. */
export async function atButton(
  interaction: Pressed | Filled,
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
  const { guild } = room.place.value;
  const roles = person.roles ?? (await desk.rolesOf(guild, person.id));
  const speaker =
    roles === "gone"
      ? undefined
      : speakerOf(
          room.place,
          { ...person, roles, manages: person.manages ?? desk.manages(guild, person.id, roles) },
          desk.onFault,
        );
  if (speaker === undefined) await talk.alone(notAMember);
  return speaker === undefined ? undefined : { room, speaker };
}

/** Somebody pressed a button. */
export async function hearPress(interaction: Pressed, desk: Desk): Promise<void> {
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
  const { payloads, attached } = await answerAt(
    room,
    speaker,
    desk.api,
    () => {
      const meant = pressed();
      return "form" in meant ? first : meant;
    },
    (reply) => !isDirect && reply.kind === "refusal",
  );
  await talk.answer.give(payloads, attached);
}

/** The bench for direct messages was chosen: what was said before the question is heard now. */
async function choose(
  { guild_id }: Pressed,
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
  const { payloads, attached } = await answerAt(room, speaker, desk.api, () => ({
    text: fresh.text,
  }));
  await answer.give([payload(chosenBench(room)), ...payloads], attached);
}
