import { MessageFlags } from "discord-api-types/v10";
import { editMessage as editForm, webhookMessage } from "../limits/message.ts";
import { deleteMessage, editMessage } from "../messages/post.ts";
import { messageView } from "../views/message.ts";
import type { Channel, Interaction, Message } from "../world.ts";
import { type Answer, type Call, formOf, type Route } from "./call.ts";
import { acknowledgedInteraction } from "./interaction-of.ts";
import { refusals } from "./refusal.ts";
import { speak } from "./routes-callback.ts";
import { refuseFlags } from "./routes-messages.ts";

const view = (call: Call, message: Message): object => messageView(call.world, message, call.hosts);

function channelOf(call: Call, interaction: Interaction): Channel {
  const channel = call.world.channels.get(interaction.channelId);
  if (channel === undefined) throw refusals.unknownChannel();
  return channel;
}

/** "@original" or the id of one of the interaction's own messages. */
function messageOf(call: Call, interaction: Interaction): Message {
  const { original, followUps } = interaction;
  const wanted = call.params.message;
  const message =
    wanted === "@original"
      ? original
      : [original, ...followUps].find((other) => other?.id === wanted);
  if (message === undefined || message.deletedAt !== undefined) throw refusals.unknownMessage();
  return message;
}

/** Create Followup Message; right after a deferral it fills the message that was promised. */
function followUp(call: Call): Answer {
  const interaction = acknowledgedInteraction(call);
  const form = formOf(call, webhookMessage);
  refuseFlags(form.flags, true);
  const { original } = interaction;
  if (original !== undefined && (original.flags & MessageFlags.Loading) !== 0) {
    editMessage(call.world, call.hosts, original, form, call.uploads);
    return view(call, original);
  }
  const message = speak(call, interaction, channelOf(call, interaction), form, false);
  interaction.followUps.push(message);
  return view(call, message);
}

function edit(call: Call): Answer {
  const message = messageOf(call, acknowledgedInteraction(call));
  editMessage(call.world, call.hosts, message, formOf(call, editForm), call.uploads);
  return view(call, message);
}

function remove(call: Call): Answer {
  deleteMessage(call.world, messageOf(call, acknowledgedInteraction(call)));
  return undefined;
}

const FIVE = { limit: 5, windowMs: 2000 };
const one = "/webhooks/:application/:token/messages/:message";

export const webhookRoutes: readonly Route[] = [
  {
    method: "POST",
    path: "/webhooks/:application/:token",
    token: "path",
    bucket: FIVE,
    query: ["wait"],
    run: followUp,
  },
  {
    method: "GET",
    path: one,
    token: "path",
    bucket: FIVE,
    run: (call) => view(call, messageOf(call, acknowledgedInteraction(call))),
  },
  { method: "PATCH", path: one, token: "path", bucket: FIVE, run: edit },
  { method: "DELETE", path: one, token: "path", bucket: FIVE, run: remove },
];
