import {
  type APIApplicationCommandOptionChoice,
  type APIModalInteractionResponseCallbackData,
  InteractionType,
  MessageFlags,
  InteractionResponseType as Response,
} from "discord-api-types/v10";
import { z } from "zod";
import { choice } from "../limits/command-options.ts";
import { webhookMessage } from "../limits/message.ts";
import { modal } from "../limits/modal.ts";
import { editMessage, postMessage } from "../messages/post.ts";
import { messageView } from "../views/message.ts";
import type { Channel, Interaction, Message } from "../world.ts";
import { type Answer, type Call, formOf, type Route } from "./call.ts";
import { awaitingInteraction } from "./interaction-of.ts";
import { Refusal, refusals } from "./refusal.ts";
import { ephemeral, refuseFlags } from "./routes-messages.ts";

const respond = z.strictObject({
  type: z.literal(Response.ChannelMessageWithSource),
  data: webhookMessage,
});
const defer = z.strictObject({
  type: z.literal(Response.DeferredChannelMessageWithSource),
  data: z.strictObject({ flags: z.literal([0, MessageFlags.Ephemeral]).optional() }).optional(),
});
const deferUpdate = z.strictObject({
  type: z.literal(Response.DeferredMessageUpdate),
  data: z.strictObject({}).optional(),
});
const update = z.strictObject({
  type: z.literal(Response.UpdateMessage),
  data: webhookMessage,
});
const complete = z.strictObject({
  type: z.literal(Response.ApplicationCommandAutocompleteResult),
  data: z.strictObject({ choices: z.array(choice).max(25) }),
});
const form = z.strictObject({ type: z.literal(Response.Modal), data: modal });

const callback = z.discriminatedUnion("type", [
  respond,
  defer,
  deferUpdate,
  update,
  complete,
  form,
]);

const MESSAGES = [Response.ChannelMessageWithSource, Response.DeferredChannelMessageWithSource];
const UPDATES = [Response.DeferredMessageUpdate, Response.UpdateMessage];

/** Which callbacks each kind of interaction takes ("Interaction Callback Type" and its notes). */
function allowedTypes(interaction: Interaction): readonly Response[] {
  const fromMessage = interaction.messageId !== undefined;
  switch (interaction.type) {
    case InteractionType.ApplicationCommandAutocomplete:
      return [Response.ApplicationCommandAutocompleteResult];
    case InteractionType.ModalSubmit:
      return [...MESSAGES, ...(fromMessage ? UPDATES : [])];
    case InteractionType.MessageComponent:
      return [...MESSAGES, ...UPDATES, Response.Modal];
    default:
      return [...MESSAGES, Response.Modal];
  }
}

function refuseType(interaction: Interaction, type: Response): void {
  if (allowedTypes(interaction).includes(type)) return;
  throw new Refusal(400, 50035, "Invalid Form Body", {
    errors: {
      type: {
        // The code is from memory.
        _errors: [{ code: "BASE_TYPE_CHOICES", message: "Value is not allowed here." }],
      },
    },
  });
}

/** Create Interaction Response: the one acknowledgement. */
function acknowledge(call: Call): Answer {
  const interaction = awaitingInteraction(call);
  const read = formOf(call, callback);
  refuseType(interaction, read.type);
  const channel = call.world.channels.get(interaction.channelId);
  if (channel === undefined) throw refusals.unknownChannel();
  perform(call, interaction, channel, read);
  interaction.acknowledged = { type: read.type, at: call.world.now() };
  return call.query.get("with_response") === "true" ? callbackView(call, interaction) : undefined;
}

function perform(
  call: Call,
  interaction: Interaction,
  channel: Channel,
  read: z.infer<typeof callback>,
): void {
  switch (read.type) {
    case Response.ChannelMessageWithSource:
      refuseFlags(read.data.flags, true);
      interaction.original = speak(call, interaction, channel, read.data, false);
      return;
    case Response.DeferredChannelMessageWithSource:
      interaction.original = speak(call, interaction, channel, read.data ?? {}, true);
      return;
    case Response.DeferredMessageUpdate:
      interaction.original = sourceOf(channel, interaction);
      return;
    case Response.UpdateMessage: {
      const source = sourceOf(channel, interaction);
      editMessage(call.world, call.hosts, source, read.data, call.uploads);
      interaction.original = source;
      return;
    }
    case Response.ApplicationCommandAutocompleteResult:
      interaction.choices = read.data.choices as APIApplicationCommandOptionChoice[];
      return;
    case Response.Modal:
      interaction.modal = read.data as unknown as APIModalInteractionResponseCallbackData;
  }
}

/** Puts a response or a follow-up of the interaction into its channel. */
export function speak(
  call: Call,
  interaction: Interaction,
  channel: Channel,
  said: z.infer<typeof webhookMessage>,
  loading: boolean,
): Message {
  return postMessage(call.world, call.hosts, {
    channel,
    author: interaction.application.bot,
    form: said,
    uploads: call.uploads,
    interactionId: interaction.id,
    applicationId: interaction.application.id,
    loading,
    ...(ephemeral(said.flags) ? { onlyFor: interaction.user.id } : {}),
  });
}

function sourceOf(channel: Channel, interaction: Interaction): Message {
  const source = channel.messages.find(({ id }) => id === interaction.messageId);
  if (source === undefined || source.deletedAt !== undefined) throw refusals.unknownMessage();
  return source;
}

/** Interaction Callback Response Object. */
function callbackView(call: Call, interaction: Interaction): object {
  const { original, acknowledged } = interaction;
  const withMessage =
    acknowledged?.type === Response.ChannelMessageWithSource ||
    acknowledged?.type === Response.UpdateMessage;
  return {
    interaction: {
      id: interaction.id,
      type: interaction.type,
      ...(original === undefined
        ? {}
        : {
            response_message_id: original.id,
            response_message_loading: (original.flags & MessageFlags.Loading) !== 0,
            response_message_ephemeral: original.onlyFor !== undefined,
          }),
    },
    resource: {
      type: acknowledged?.type,
      ...(original !== undefined && withMessage
        ? { message: messageView(call.world, original, call.hosts) }
        : {}),
    },
  };
}

export const callbackRoutes: readonly Route[] = [
  {
    method: "POST",
    path: "/interactions/:interaction/:token/callback",
    token: "path",
    bucket: { limit: 5, windowMs: 2000 },
    query: ["with_response"],
    run: acknowledge,
  },
];
