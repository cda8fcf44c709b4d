import type { Interaction } from "../world.ts";
import type { Call } from "./call.ts";
import { refusals } from "./refusal.ts";

/** An interaction must be acknowledged within 3 s ("Responding to an Interaction"). */
export const ACKNOWLEDGE_MS = 3000;
/** Its token then serves for 15 minutes ("Followup Messages"). */
export const TOKEN_MS = 15 * 60_000;

/** The interaction of a callback's path. @throws Refusal 10062, 40060 */
export function awaitingInteraction(call: Call): Interaction {
  const { world, params } = call;
  const interaction = world.interactions.get(params.interaction ?? "");
  if (interaction === undefined || interaction.token !== params.token) {
    world.violations.push({ kind: "unknown-interaction", detail: params.interaction ?? "" });
    throw refusals.unknownInteraction();
  }
  if (interaction.acknowledged !== undefined) {
    world.violations.push({ kind: "second-acknowledgement", detail: interaction.id });
    throw refusals.alreadyAcknowledged();
  }
  const age = world.now() - interaction.at;
  if (age > ACKNOWLEDGE_MS) {
    // Replayed after a lost connection it was too late from the start: no fault of the bot.
    if (interaction.delivered)
      world.violations.push({
        kind: "late-acknowledgement",
        detail: `${interaction.id}: ${age} ms`,
      });
    throw refusals.unknownInteraction();
  }
  return interaction;
}

/** The interaction of a webhook's path, acknowledged before. @throws Refusal 10015, 50027 */
export function acknowledgedInteraction(call: Call): Interaction {
  const { world, params } = call;
  const interaction = world.interactionTokens.get(params.token ?? "");
  if (interaction === undefined || interaction.application.id !== params.application)
    throw refusals.unknownWebhook();
  if (world.now() - interaction.at > TOKEN_MS) throw refusals.invalidWebhookToken();
  if (interaction.acknowledged === undefined) {
    world.violations.push({ kind: "follow-up-before-acknowledgement", detail: interaction.id });
    throw refusals.unknownWebhook();
  }
  return interaction;
}
