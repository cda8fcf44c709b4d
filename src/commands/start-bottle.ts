import type { Bottle } from "../domain/chemistry/bottle.ts";
import { isFit } from "../domain/chemistry/capacity-left.ts";
import { ownValue } from "../domain/own-value.ts";
import { explainSharing, sharingTrouble } from "../domain/process/shared-baths.ts";
import { type Bath, isWater, type Sheet } from "../domain/process/sheet.ts";
import { type Bench, liveBottles } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { lookNow } from "./bottle-looks.ts";
import { retiredReply } from "./bottle-meant.ts";
import { sheetById } from "./sheets.ts";

export type BottleChoice =
  | { readonly bottle: Bottle | undefined }
  | { readonly several: readonly Bottle[] }
  | { readonly wrong: Reply };

/** The process a bottle was mixed for, by its sheet; undefined when that is not known. */
const processOf = (bench: Bench, bottle: Bottle): string | undefined =>
  bottle.sheet === undefined ? undefined : sheetById(bench, bottle.sheet)?.process;

const holds = ({ bath: held }: Bottle, { kind, name }: Bath): boolean =>
  held === kind || held === name;

/**
 * Which bath each bottle that was named is for, by the bath's name: the one that was asked about,
 * else the first that it holds; one that holds none of them is the first bath's, and stopped there.
 */
export function namedBottles(
  bench: Bench,
  baths: readonly Bath[],
  { bottle: id, bottleOf, poured }: NamedBottles,
): Readonly<Record<string, string>> {
  const bottle = id === undefined ? undefined : ownValue(bench.bottles, id);
  if (id === undefined || bottle === undefined) return poured ?? {};
  const bath = baths.find((one) => holds(bottle, one)) ?? baths[0];
  const meant = bottleOf ?? bath?.name;
  return meant === undefined ? {} : { ...poured, [meant]: id };
}

export type NamedBottles = {
  readonly bottle?: string | undefined;
  /** The bath the open question about a bottle is about. */
  readonly bottleOf?: string | undefined;
  /** Those that were named before, by their baths' names. */
  readonly poured?: Readonly<Record<string, string>> | undefined;
};

/**
 * The bottle a bath is poured from: the named one, or the only one that holds it. A bottle mixed
 * for another process is never taken by itself, and a named one is a loud stop. Of several, one
 * that is not fit is neither taken nor offered while another is.
 */
export function bottleFor(
  bench: Bench,
  sheet: Sheet,
  bath: Bath,
  named: string | undefined,
  now: Instant,
): BottleChoice {
  if (isWater(bath.kind)) return { bottle: undefined };
  const otherProcess = (bottle: Bottle): string | undefined => {
    const process = processOf(bench, bottle);
    return process === undefined || process === sheet.process ? undefined : process;
  };
  if (named === undefined) {
    const holding = liveBottles(bench).filter(
      (bottle) => holds(bottle, bath) && otherProcess(bottle) === undefined,
    );
    const fit =
      holding.length > 1 ? holding.filter((bottle) => isFit(lookNow(bench, bottle, now))) : [];
    const offered = fit.length > 0 ? fit : holding;
    return offered.length > 1 ? { several: offered } : { bottle: offered[0] };
  }
  const bottle = ownValue(bench.bottles, named);
  if (bottle === undefined) return { bottle: undefined };
  if (bottle.retiredOn !== undefined) return { wrong: retiredReply(bottle) };
  if (!holds(bottle, bath)) {
    return {
      wrong: refuse(
        "wrong-bottle",
        `Stop. ${bottle.name} holds ${bottle.bath}, and this bath is ${bath.name}. Nothing is poured.`,
        { say: `Stop. ${bottle.name} holds ${bottle.bath}.`, facts: { bottle: bottle.name } },
      ),
    };
  }
  const other = otherProcess(bottle);
  if (other === undefined) return { bottle };
  return {
    wrong: refuse(
      "wrong-process",
      `Stop. ${bottle.name} was mixed for ${other}, and this run is ${sheet.process}. Nothing is poured.`,
      { say: `Stop. ${bottle.name} was mixed for ${other}.`, facts: { bottle: bottle.name } },
    ),
  };
}

/** Film that spoils what others share goes only into bottles mixed for it. */
export function sharing(bench: Bench, sheet: Sheet, bottles: readonly Bottle[]): Reply | undefined {
  const trouble = sharingTrouble(
    sheet,
    bottles.map((bottle) => ({ name: bottle.name, process: processOf(bench, bottle) })),
  );
  if (trouble === undefined) return undefined;
  return refuse("shared-bath", explainSharing(trouble), {
    say: "Stop. This film spoils baths that others share.",
    lines: [`Founded on: ${trouble.how}.`],
    facts: { bottles: [...trouble.bottles] },
  });
}
