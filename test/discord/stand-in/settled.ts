import { MessageFlags } from "discord-api-types/v10";
import { ACKNOWLEDGE_MS } from "./rest/interaction-of.ts";
import type { Traffic } from "./rest/serve.ts";
import type { World } from "./world.ts";

/** So long without traffic is quiet, in real ms: enough for a bot that writes to disk first. */
const QUIET_MS = 40;
/** Nothing is waited for longer. */
const LONGEST_MS = 10_000;
/** An interaction may stay unanswered this long before it stops being waited for. */
const PATIENCE_MS = 2000;

/** Whether a bot in this process is at its files: it answers when they are written. */
const writing = (): boolean =>
  process.getActiveResourcesInfo().some((resource) => resource.startsWith("FSReq"));

/**
 * Waits in real time until nothing is under way: no request open, no file being written, no wire
 * traffic for a while, no interaction without its acknowledgement that could still get one, no
 * promised response open.
 */
export function createSettled(world: World, traffic: Traffic): () => Promise<void> {
  return async () => {
    const start = performance.now();
    const waiting = (): boolean =>
      performance.now() - start < PATIENCE_MS &&
      [...world.interactions.values()].some(
        ({ acknowledged, delivered, at, original }) =>
          (delivered && acknowledged === undefined && world.now() - at <= ACKNOWLEDGE_MS) ||
          (original?.deletedAt === undefined &&
            ((original?.flags ?? 0) & MessageFlags.Loading) !== 0),
      );
    let busy = start;
    const quietFor = (): number => {
      if (writing()) busy = performance.now();
      return performance.now() - Math.max(traffic.last, busy);
    };
    while (traffic.open > 0 || waiting() || quietFor() < QUIET_MS) {
      if (performance.now() - start > LONGEST_MS) throw new Error("The traffic does not settle");
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  };
}

/** Waits in real time until something is so. @throws after ten seconds, with `what` */
export async function until(holds: () => boolean, what = "It"): Promise<void> {
  const start = performance.now();
  while (!holds()) {
    if (performance.now() - start > LONGEST_MS) throw new Error(`${what} does not come about`);
    await new Promise((resolve) => setTimeout(resolve, 2));
  }
}
