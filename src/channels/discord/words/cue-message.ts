import type { Reply } from "../../../reply/reply.ts";
import type { MessagePayload } from "./message-payload.ts";
import { type RenderContext, renderReply } from "./render-reply.ts";

/**
 * A cue as a message of its own, which notifies: the tank, one verb, the object. Nothing in the
 * dark. A cue told late says so itself.
 */
export const cueMessage = (reply: Reply, context: RenderContext): readonly MessagePayload[] =>
  renderReply(reply, { ...context, ephemeral: false });
