import type { Bottle } from "../domain/chemistry/bottle.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { showDate } from "../domain/timing/clock-text.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import type { Outcome } from "./define-command.ts";

/** The bottle a command is about; a retired one is closed and says so. */
export function bottleMeant(
  bench: Bench,
  id: string,
): { readonly bottle: Bottle } | { readonly reply: Reply } {
  const bottle = ownValue(bench.bottles, id);
  if (bottle === undefined) {
    return {
      reply: refuse("no-such-bottle", "I know no such bottle. Say bottles for those I know.", {
        say: "I know no such bottle.",
      }),
    };
  }
  if (bottle.retiredOn !== undefined) {
    return { reply: retiredReply(bottle) };
  }
  return { bottle };
}

/** A retired bottle's record is closed: when, and why where that was said. */
export function retiredReply(bottle: Bottle): Reply {
  const on = bottle.retiredOn === undefined ? "" : ` on ${showDate(bottle.retiredOn)}`;
  const why = bottle.retired === undefined ? "" : `: ${bottle.retired.why}`;
  return refuse(
    "retired",
    `${bottle.name} was retired${on}${why}. Its record is closed; put a new bottle up.`,
    { say: `${bottle.name} was retired${on}.`, facts: { bottle: bottle.name } },
  );
}

/** The retired bottle that words name, for a sentence that was not understood otherwise. */
export function retiredNamed(bench: Bench, words: readonly string[]): Bottle | undefined {
  const said = ` ${words.join(" ")} `;
  return Object.values(bench.bottles).find(
    ({ name, retiredOn }) => retiredOn !== undefined && said.includes(` ${name.toLowerCase()} `),
  );
}

/** The bench with one bottle replaced, and the reply that tells it. */
export const withBottle = (bench: Bench, bottle: Bottle, reply: Reply): Outcome => ({
  bench: { ...bench, bottles: { ...bench.bottles, [bottle.id]: bottle } },
  reply,
});
