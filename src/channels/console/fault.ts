import { faultWords } from "../../platform/fault.ts";
import { type Reply, refuse } from "../../reply/reply.ts";
import { StoreError } from "../../store/store-error.ts";

/** What a person is told when a message or a cue could not be worked out or kept. */
export function faultReply(error: unknown): Reply {
  if (error instanceof StoreError) return refuse(error.kind, error.message);
  return refuse(
    "fault",
    "Something went wrong in me, not in what you said. The clock times of the plan still hold; say left.",
    {
      say: "Something went wrong in me. The plan's times still hold; say left.",
      lines: [`For whoever mends me: ${faultWords(error)}`],
    },
  );
}
