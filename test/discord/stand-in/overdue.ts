import { ACKNOWLEDGE_MS } from "./rest/interaction-of.ts";
import type { Violation, World } from "./world.ts";

/** Interactions a running bot heard of and let go by: the user saw a failure. */
export const overdue = (world: World, forgiven: ReadonlySet<string>): Violation[] =>
  [...world.interactions.values()]
    .filter(
      ({ acknowledged, delivered, at, id }) =>
        delivered &&
        acknowledged === undefined &&
        world.now() - at > ACKNOWLEDGE_MS &&
        !forgiven.has(id),
    )
    .map(({ id }) => ({ kind: "no-acknowledgement", detail: id }));
