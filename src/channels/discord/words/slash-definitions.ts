import { createHash } from "node:crypto";
import {
  type APIApplicationCommandBasicOption,
  type APIApplicationCommandSubcommandOption,
  ApplicationCommandOptionType,
  ApplicationCommandType,
  ApplicationIntegrationType,
  InteractionContextType,
  type RESTPostAPIChatInputApplicationCommandsJSONBody,
} from "discord-api-types/v10";
import type { Command } from "../../../commands/define-command.ts";
import { completes } from "./completions.ts";
import { described, type SlashField, slashFields } from "./slash-fields.ts";
import { SAY, type SlashPlace, slashPlaces } from "./slash-layout.ts";

type Definition = RESTPostAPIChatInputApplicationCommandsJSONBody;

/** Where they may be used: in guilds the bot was invited to, and in direct messages to it. */
const everywhere = (): Pick<Definition, "type" | "contexts" | "integration_types"> => ({
  type: ApplicationCommandType.ChatInput,
  contexts: [InteractionContextType.Guild, InteractionContextType.BotDM],
  integration_types: [ApplicationIntegrationType.GuildInstall],
});

const sayDefinition: Definition = {
  ...everywhere(),
  name: SAY,
  description: "Say it in your own words, as you would type it.",
  options: [
    {
      type: ApplicationCommandOptionType.String,
      name: "sentence",
      description: "Any sentence, like: how much water for a quart of developer",
      required: true,
      max_length: 1000,
    },
  ],
};

/**
 * The slash commands of all commands, in order of name: the same commands always give the same
 * list. A new command file is in it by itself.
 */
export function slashDefinitions(commands: readonly Command[]): readonly Definition[] {
  const byName = Map.groupBy(slashPlaces(commands), ({ name }) => name);
  const definitions = [...byName].map(([name, places]) => definitionOf(name, places));
  return [...definitions, sayDefinition].toSorted((one, other) => (one.name < other.name ? -1 : 1));
}

/** Changes when the list does: registering again is only needed then. */
export const definitionsHash = (definitions: readonly Definition[]): string =>
  createHash("sha256").update(JSON.stringify(definitions)).digest("hex");

function definitionOf(name: string, places: readonly SlashPlace[]): Definition {
  const [only] = places;
  if (only !== undefined && only.sub === undefined) {
    return {
      ...everywhere(),
      name,
      description: described(only.command.summary),
      options: optionsOf(only.command),
    };
  }
  return {
    ...everywhere(),
    name,
    description: described(groupWords(name, places)),
    options: places.map(
      ({ sub = "", command }): APIApplicationCommandSubcommandOption => ({
        type: ApplicationCommandOptionType.Subcommand,
        name: sub,
        description: described(command.summary),
        options: optionsOf(command),
      }),
    ),
  };
}

/** A group is described by what is in it. */
const groupWords = (name: string, places: readonly SlashPlace[]): string =>
  `${name}: ${places.map(({ command }) => command.name).join(", ")}`;

const optionsOf = (command: Command): APIApplicationCommandBasicOption[] =>
  slashFields(command).map((field) => optionOf(command, field));

function optionOf(command: Command, field: SlashField): APIApplicationCommandBasicOption {
  const { option: name, description, required, kind, least, most, longest, choices } = field;
  const base = { name, description, required };
  const range = {
    ...(least === undefined ? {} : { min_value: least }),
    ...(most === undefined ? {} : { max_value: most }),
  };
  switch (kind) {
    case "boolean":
      return { ...base, type: ApplicationCommandOptionType.Boolean };
    case "integer":
      return { ...base, ...range, type: ApplicationCommandOptionType.Integer };
    case "number":
      return { ...base, ...range, type: ApplicationCommandOptionType.Number };
    case "choice":
      return {
        ...base,
        type: ApplicationCommandOptionType.String,
        choices: (choices ?? []).map((choice) => ({ ...choice })),
      };
    case "phrase":
    case "words":
      return {
        ...base,
        type: ApplicationCommandOptionType.String,
        ...(longest === undefined ? {} : { max_length: longest }),
        ...(completes(command, field) ? { autocomplete: true } : {}),
      };
  }
}
