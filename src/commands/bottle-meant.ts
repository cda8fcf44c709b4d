import type { Bottle } from "../domain/chemistry/bottle.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import type { Outcome } from "./define-command.ts";

/** The bottle a command is about; a retired one is closed and says so. */
export function bottleMeant(
  bench: Bench,
  id: string,
): { readonly bottle: Bottle } | { readonly reply: Reply } {
  const bottle = bench.bottles[id];
  if (bottle === undefined) {
    return {
      reply: refuse("no-such-bottle", "I know no such bottle. Say bottles for those I know.", {
        say: "I know no such bottle.",
      }),
    };
  }
  if (bottle.retiredOn !== undefined) {
    return {
      reply: refuse(
        "retired",
        `${bottle.name} is retired and its record is closed. Put a new bottle up.`,
        { say: `${bottle.name} is retired.`, facts: { bottle: bottle.name } },
      ),
    };
  }
  return { bottle };
}

/** The bench with one bottle replaced, and the reply that tells it. */
export const withBottle = (bench: Bench, bottle: Bottle, reply: Reply): Outcome => ({
  bench: { ...bench, bottles: { ...bench.bottles, [bottle.id]: bottle } },
  reply,
});
