import {
  type APIInteraction,
  ApplicationCommandType,
  InteractionType,
} from "discord-api-types/v10";
import type { Desk } from "./desk.ts";
import type { Slash } from "./exchange.ts";
import { hearCommand } from "./hear-command.ts";
import { hearForm } from "./hear-form.ts";
import { hearPress } from "./hear-press.ts";
import { hasFailed } from "./heard-late.ts";
import { suggestAt } from "./suggest-at.ts";

/**
 * Somebody used a command, pressed a button, filled in a form or types an option. Never rejects.
 *
 * @param isReplay  it happened while the line was lost, and is brought now
 */
export async function hearInteraction(
  interaction: APIInteraction,
  desk: Desk,
  isReplay = false,
): Promise<void> {
  try {
    if (!desk.seen.first(interaction.id)) return;
    if (isReplay && hasFailed(interaction.id, desk.now())) return;
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
