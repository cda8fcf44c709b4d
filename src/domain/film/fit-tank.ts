import { type Millilitres, millilitres } from "../units/quantity.ts";
import { type FilmFormat, filmFormats } from "./load.ts";
import type { Reel, Tank } from "./tank.ts";

/** How many of each format, by its place in `filmFormats`. */
export type Demand = readonly number[];

export const demandOf = (formats: readonly FilmFormat[]): Demand =>
  filmFormats.map((format) => formats.filter((one) => one === format).length);

/** Reels that are the same, with how many there are. */
type ReelKind = { readonly reel: Reel; readonly count: number };

function kindsOf(reels: readonly Reel[]): readonly ReelKind[] {
  const kinds = new Map<string, { reel: Reel; count: number }>();
  for (const reel of reels) {
    const key = `${[...reel.takes].sort().join()}|${reel.rolls}|${reel.ml}`;
    const known = kinds.get(key);
    if (known === undefined) kinds.set(key, { reel, count: 1 });
    else known.count += 1;
  }
  return [...kinds.values()];
}

/**
 * The least solution that covers a load in one layout, mL: only reels with film on them count, and
 * a reel needs its volume however many of its places are taken. Undefined: it does not fit.
 */
function volumeIn(kinds: readonly ReelKind[], demand: Demand): number | undefined {
  let best: number | undefined;
  const used = kinds.map(() => 0);
  const choose = (at: number, ml: number): void => {
    if (best !== undefined && ml >= best) return;
    const kind = kinds[at];
    if (kind === undefined) {
      if (holds(kinds, used, demand)) best = ml;
      return;
    }
    for (let count = 0; count <= kind.count; count += 1) {
      used[at] = count;
      choose(at + 1, ml + count * kind.reel.ml);
    }
    used[at] = 0;
  };
  choose(0, 0);
  return best;
}

/** Hall's condition: any set of formats finds room on the reels that take one of them. */
function holds(kinds: readonly ReelKind[], used: readonly number[], demand: Demand): boolean {
  const wanted = demand.flatMap((count, at) => (count > 0 ? [at] : []));
  const masks = kinds.map(({ reel }) =>
    wanted.reduce((mask, format, bit) => {
      const name = filmFormats[format];
      return name !== undefined && reel.takes.includes(name) ? mask | (1 << bit) : mask;
    }, 0),
  );
  for (let set = 1; set < 1 << wanted.length; set += 1) {
    let need = 0;
    let room = 0;
    wanted.forEach((format, bit) => {
      if ((set >> bit) & 1) need += demand[format] ?? 0;
    });
    kinds.forEach(({ reel }, at) => {
      if (((masks[at] ?? 0) & set) !== 0) room += (used[at] ?? 0) * reel.rolls;
    });
    if (need > room) return false;
  }
  return true;
}

/** The least solution for a load in a tank, over its layouts; undefined when it does not fit. */
export function volumeFor(tank: Pick<Tank, "layouts">, demand: Demand): Millilitres | undefined {
  let best: number | undefined;
  for (const reels of tank.layouts) {
    const ml = volumeIn(kindsOf(reels), demand);
    if (ml !== undefined && (best === undefined || ml < best)) best = ml;
  }
  return best === undefined ? undefined : millilitres(best);
}

/** The same question asked often of one tank, answered once a demand. */
export function fitter(tank: Pick<Tank, "layouts">): (demand: Demand) => Millilitres | undefined {
  const known = new Map<string, Millilitres | undefined>();
  return (demand) => {
    const key = demand.join();
    if (!known.has(key)) known.set(key, volumeFor(tank, demand));
    return known.get(key);
  };
}
