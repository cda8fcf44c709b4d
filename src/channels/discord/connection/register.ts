import { Routes } from "discord-api-types/v10";
import type { Command } from "../../../commands/define-command.ts";
import type { Api } from "../delivery/api.ts";
import type { Kept } from "../directory/kept.ts";
import type { Front } from "../directory/record.ts";
import { ownDefinitions } from "../set-up/definition.ts";
import { definitionsHash, slashDefinitions } from "../words/slash-definitions.ts";

/** Tells Discord the slash commands, where they are not the ones it was told last. */
export async function register(
  api: Api,
  application: string,
  commands: readonly Command[],
  front: Kept<Front>,
): Promise<void> {
  const definitions = [...slashDefinitions(commands), ...ownDefinitions];
  const hash = definitionsHash(definitions);
  const { registered } = front.value;
  if (registered?.application === application && registered.commands === hash) return;
  await api.call("put", Routes.applicationCommands(application), { body: definitions });
  await front.change((value) => ({ ...value, registered: { application, commands: hash } }));
}
