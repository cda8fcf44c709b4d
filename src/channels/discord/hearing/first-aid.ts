import type { Command } from "../../../commands/define-command.ts";
import { newRecord } from "../../../conversation/record.ts";
import { turn } from "../../../conversation/turn.ts";
import { newBench } from "../../../domain/session/bench.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { Said } from "../rooms/room.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import { renderReply } from "../words/render-reply.ts";

const NOBODY = "none";
const ZONE = "UTC";

/**
 * First aid for whoever asks. It needs no bench and changes none, so that no full disk, no queue
 * and no darkness holds it up.
 */
export function firstAid(said: Said, now: Instant, commands: readonly Command[]): Reply {
  const message = { ...said, who: NOBODY, standing: "guest" as const };
  return turn(newRecord(NOBODY, ZONE), message, now, commands).reply;
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
