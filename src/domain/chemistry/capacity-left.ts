import { type Units, units } from "../units/quantity.ts";
import type { BottleLook } from "./look.ts";

/** What the bottles of one bath of one process can still take. */
export type CapacityLeft = {
  /** What it is: developer, blix, fixer ... */
  readonly kind: string;
  readonly process: string | undefined;
  /** In all bottles together; missing where the capacity of one is not known. */
  readonly left: Units | undefined;
  /** The most one bottle can still take: a load is not split between bottles. */
  readonly most: Units | undefined;
  /** Is the chemistry doubtful, so that an unimportant roll goes first? A passed test leaves it so. */
  readonly doubtful: boolean;
  /** Why, one sentence a bottle: "Acorn: it is past its keeping time". */
  readonly doubts: readonly string[];
  /** Best first: neither doubtful nor past its limit, then the most used. */
  readonly bottles: readonly BottleLook[];
};

/**
 * Capacity left by bath and process, over working bottles that are not retired. `looks` come from
 * `lookAt`; the shell's `benchCapacity` makes them.
 */
export function capacityLeft(looks: readonly BottleLook[]): readonly CapacityLeft[] {
  const groups = new Map<string, BottleLook[]>();
  for (const look of looks) {
    const { bottle } = look;
    if (bottle.retiredOn !== undefined || (bottle.role ?? "working") !== "working") continue;
    const key = `${look.sheet?.process ?? ""} ${kindOf(look)}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [look]);
    else group.push(look);
  }
  return [...groups.values()].map((group) => {
    const lefts = group.map(({ unitsLeft }) => unitsLeft);
    const known = lefts.filter((one) => one !== undefined);
    const all = known.length === lefts.length;
    const doubts = group.flatMap(({ bottle, doubts: why }) =>
      why.map((one) => `${bottle.name}: ${one}`),
    );
    const [first] = group;
    return {
      kind: first === undefined ? "" : kindOf(first),
      process: first?.sheet?.process,
      left: all ? units(known.reduce((sum, one) => sum + one, 0)) : undefined,
      most: known.length === 0 ? undefined : units(Math.max(...known)),
      doubtful: group.every(isDoubtful),
      doubts,
      bottles: group.toSorted(better),
    };
  });
}

export const kindOf = ({ bath, bottle }: BottleLook): string => bath?.kind ?? bottle.bath;

/** Not proved sound: a test is wanted, or was passed and holds for the day only. */
export const isDoubtful = ({ doubts, unproven }: BottleLook): boolean =>
  doubts.length + unproven.length > 0;

/** Fit to be named for film: not suspect, and not past its limit unless a test of today was passed. */
export const isFit = ({ state, unitsLeft, tested }: BottleLook): boolean =>
  state !== "suspect" &&
  state !== "retired" &&
  (state !== "past limit" || (tested !== undefined && (unitsLeft ?? 1) > 1e-6));

const rank = (look: BottleLook): number =>
  look.state === "suspect" ? 3 : look.state === "past limit" ? 2 : isDoubtful(look) ? 1 : 0;

/** Sound bottles first; of those, the one whose limit comes first is used up first. */
export function better(one: BottleLook, other: BottleLook): number {
  const byRank = rank(one) - rank(other);
  if (byRank !== 0) return byRank;
  const nearest = (look: BottleLook): number => Math.max(look.age ?? 0, look.worn ?? 0);
  return nearest(other) - nearest(one);
}
