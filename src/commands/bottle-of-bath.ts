import type { Bottle } from "../domain/chemistry/bottle.ts";
import { type Bench, liveBottles } from "../domain/session/bench.ts";
import type { Reply } from "../reply/reply.ts";
import { bottleMeant } from "./bottle-meant.ts";
import { askFor } from "./define-command.ts";

const MOST_NAMES = 6;

/**
 * The bottle a command is about, by name or by what is in it: "the developer" is a bottle where
 * only one holds developer. Otherwise the field `bottle` is asked for.
 */
export function bottleOfBath(
  bench: Bench,
  wanted: { readonly bottle?: string | undefined; readonly solution?: string | undefined },
  command: string,
  title: string,
  kept: Readonly<Record<string, unknown>> = withoutBottle(wanted),
): { readonly bottle: Bottle } | { readonly reply: Reply } {
  if (wanted.bottle !== undefined) return bottleMeant(bench, wanted.bottle);
  const { solution } = wanted;
  const live = liveBottles(bench);
  const holding =
    solution === undefined ? live : live.filter((bottle) => holds(bottle.bath, solution));
  const [only] = holding;
  if (only !== undefined && holding.length === 1) return { bottle: only };
  const offered = holding.length > 0 ? holding : live;
  const options = offered.map(({ id, name }) => ({ word: name, value: id }));
  const few = options.length > 0 && options.length <= MOST_NAMES;
  return { reply: askFor(command, kept, "bottle", title, few ? options : undefined) };
}

/** The other fields, which stay said while the bottle is asked for. */
function withoutBottle(wanted: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const { bottle: _, solution: __, ...rest } = wanted;
  return rest;
}

/** "developer" is said of a first and a colour developer too. */
export const holds = (bath: string, solution: string): boolean =>
  bath === solution || bath.endsWith(` ${solution}`);
