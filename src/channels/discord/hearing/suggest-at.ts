import type { APIApplicationCommandAutocompleteInteraction } from "discord-api-types/v10";
import { speakerOf } from "../people/membership.ts";
import { ADMINISTER } from "../set-up/definition.ts";
import { completions } from "../words/completions.ts";
import { type SlashData, type SlashOption, slashCommandOf } from "../words/read-interaction.ts";
import { suggest } from "./answering.ts";
import type { Desk } from "./desk.ts";
import { benchOf } from "./direct-bench.ts";
import { personOf } from "./exchange.ts";

type Choices = readonly { readonly name: string; readonly value: string }[];

/** What may be meant by what is being typed: of one's own bench alone. */
export async function suggestAt(
  interaction: APIApplicationCommandAutocompleteInteraction,
  desk: Desk,
): Promise<void> {
  await suggest(interaction, await choicesFor(interaction, desk), desk.api);
}

async function choicesFor(
  interaction: APIApplicationCommandAutocompleteInteraction,
  desk: Desk,
): Promise<Choices> {
  const person = personOf(interaction);
  const data = interaction.data as SlashData;
  if (person === undefined) return [];
  if (desk.typingBudget.spend(person.id, desk.now()) !== "heard") return [];
  if (data.name === ADMINISTER) {
    return person.manages === true ? benchesOf(interaction.guild_id, desk) : [];
  }
  const meant = slashCommandOf(data, desk.commands);
  const focused = meant?.options.find(({ focused: is }: SlashOption) => is === true);
  if (meant === undefined || focused === undefined) return [];
  const typed = String(focused.value ?? "");
  const here = interaction.channel?.id;
  if (interaction.guild_id === undefined) {
    const found = await benchOf(person, desk);
    if (found.kind !== "one") return [];
    const { bench } = found.room.keeper.record;
    return completions(bench, meant.command, focused.name, typed, desk.commands);
  }
  const room = here === undefined ? undefined : desk.rooms.inChannel(here);
  if (room === undefined || speakerOf(room.place, person, desk.onFault) === undefined) return [];
  const { bench } = room.keeper.record;
  return completions(bench, meant.command, focused.name, typed, desk.commands);
}

/** Benches of this guild that could be moved to another channel. */
function benchesOf(guild: string | undefined, { rooms }: Desk): Choices {
  return rooms
    .all()
    .filter(({ place: { value } }) => value.guild === guild)
    .slice(0, 25)
    .map(({ key, place: { value } }) => ({
      name: `#${value.channelName}`.slice(0, 100),
      value: key,
    }));
}
