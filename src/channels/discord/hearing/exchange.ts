import type {
  APIChatInputApplicationCommandInteraction,
  APIInteraction,
  APIMessageComponentInteraction,
  APIModalSubmitInteraction,
} from "discord-api-types/v10";
import type { Person } from "../people/membership.ts";
import type { Room } from "../rooms/room.ts";
import { mayManage } from "../set-up/permissions.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";
import { type Answering, answering } from "./answering.ts";
import type { Desk } from "./desk.ts";
import { apart, tooLateForForm } from "./own-words.ts";

export type Slash = APIChatInputApplicationCommandInteraction;
export type Pressed = APIMessageComponentInteraction;
export type Filled = APIModalSubmitInteraction;

export function personOf(interaction: APIInteraction): Person | undefined {
  const { member } = interaction;
  const user = member?.user ?? interaction.user;
  if (user === undefined) return undefined;
  const display = member?.nick ?? user.global_name ?? user.username;
  const manages = member === undefined ? undefined : mayManage(BigInt(member.permissions));
  return { id: user.id, display, roles: member?.roles, manages };
}

/** The bench of the channel something was done in; undefined in a direct message. */
export const roomHere = (interaction: APIInteraction, desk: Desk): Room | undefined =>
  interaction.guild_id === undefined || interaction.channel?.id === undefined
    ? undefined
    : desk.rooms.inChannel(interaction.channel.id);

export type Exchange = {
  readonly person: Person;
  readonly answer: Answering;
  /** An answer for this person alone, in the channel's own words. */
  alone(text: string): Promise<void>;
};

/** @param ephemeral  whether an answer that takes long is promised to this person alone */
export function exchange(
  interaction: Slash | Pressed | Filled,
  desk: Desk,
  ephemeral: boolean,
): Exchange | undefined {
  const person = personOf(interaction);
  if (person === undefined) return undefined;
  const channel = interaction.channel?.id;
  const answer = answering(interaction, {
    api: desk.api,
    clock: desk.clock,
    ephemeral,
    apart: payload(apart),
    tooLateForForm: payload(tooLateForForm, { ephemeral: interaction.guild_id !== undefined }),
    elsewhere: (payloads, attached) => {
      // What was for one pair of eyes is not shown to all.
      if (channel === undefined || payloads.some(isHidden)) return;
      const nonce = `i${BigInt(interaction.id).toString(36)}`;
      const lines = payloads.map((one, index) => ({ payload: one, nonce: `${nonce}-${index}` }));
      const file = { payload: payload(""), nonce: `${nonce}-p`, attached };
      desk.chat.say(channel, attached === undefined ? lines : [...lines, file]);
    },
    onFault: desk.onFault,
  });
  const alone = (text: string): Promise<void> =>
    answer.give([payload(text, { ephemeral: interaction.guild_id !== undefined })]);
  return { person, answer, alone };
}

const isHidden = ({ flags }: MessagePayload): boolean => (flags & 64) !== 0;
