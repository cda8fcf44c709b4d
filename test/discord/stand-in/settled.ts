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

/**
 * Waits in real time until nothing is under way: no request open, no wire traffic for a while, no
 * interaction without its acknowledgement that could still get one, no promised response open.
 */
export function createSettled(world: World, traffic: Traffic): () => Promise<void> {
  return async () => {
    const start = performance.now();
    const waiting = (): boolean =>
      performance.now() - start < PATIENCE_MS &&
      [...world.interactions.values()].some(
        ({ acknowledged, delivered, at, original }) =>
          (delivered && acknowledged === undefined && world.now() - at <= ACKNOWLEDGE_MS) ||
          ((original?.flags ?? 0) & MessageFlags.Loading) !== 0,
      );
    const quietFrom = (): number => Math.max(traffic.last, start);
    while (traffic.open > 0 || waiting() || performance.now() - quietFrom() < QUIET_MS) {
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
