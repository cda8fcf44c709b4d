import type { Command } from "../../../commands/define-command.ts";
import { newRecord } from "../../../conversation/record.ts";
import { turn } from "../../../conversation/turn.ts";
import { newBench } from "../../../domain/session/bench.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import { renderReply } from "../words/render-reply.ts";

const NOBODY = "none";
const ZONE = "UTC";

/** First aid for whoever asks, at no bench: it needs none and changes nothing. */
export function firstAid(text: string, now: Instant, commands: readonly Command[]): Reply {
  return turn(newRecord(NOBODY, ZONE), { text, who: NOBODY, standing: "guest" }, now, commands)
    .reply;
}

/** A reply that belongs to no bench. */
export const renderApart = (
  reply: Reply,
  now: Instant,
  ephemeral: boolean,
): readonly MessagePayload[] =>
  renderReply(
    { ...reply, clock: undefined },
    { bench: newBench(NOBODY, ZONE), benchKey: NOBODY, mode: "bench", now, ephemeral },
  );
