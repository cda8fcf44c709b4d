import { type Reply, refuse } from "../../reply/reply.ts";
import { StoreError } from "../../store/store-error.ts";

/** No message of a fault is shown beyond this many characters. */
const LONGEST = 200;

/** What a person is told when a message or a cue could not be worked out or kept. */
export function faultReply(error: unknown): Reply {
  if (error instanceof StoreError) return refuse(error.kind, error.message);
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return refuse(
    "fault",
    "Something went wrong in me, not in what you said. The clock times of the plan still hold; say left.",
    {
      say: "Something went wrong in me. The plan's times still hold; say left.",
      lines: [`For whoever mends me: ${what.slice(0, LONGEST)}`],
    },
  );
}
