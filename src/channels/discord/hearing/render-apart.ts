import { newBench } from "../../../domain/session/bench.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import { renderReply } from "../words/render-reply.ts";

const NOBODY = "none";
const ZONE = "UTC";

/** A reply that belongs to no bench, as first aid does. */
export const renderApart = (
  reply: Reply,
  now: Instant,
  ephemeral: boolean,
): readonly MessagePayload[] =>
  renderReply(
    { ...reply, clock: undefined },
    { bench: newBench(NOBODY, ZONE), benchKey: NOBODY, mode: "bench", now, ephemeral },
  );
