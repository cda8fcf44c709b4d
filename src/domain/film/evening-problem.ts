import { type Millilitres, millilitres, units } from "../units/quantity.ts";
import type { Evening, EveningRoll, EveningTank, LeftOut, Supply } from "./evening.ts";
import { lasts, loadMinutes } from "./evening.ts";
import { type Shelf, shelve } from "./evening-shelf.ts";
import { type Demand, demandOf, fitter } from "./fit-tank.ts";
import { filmFormats } from "./load.ts";

/** Rolls that are alike for every rule: which of them is taken makes no difference. */
export type RollClass = {
  readonly rolls: readonly EveningRoll[];
  readonly count: number;
  readonly units: number;
  readonly group: number;
  readonly process: number;
  readonly important: boolean;
  /** Can serve to test a bath. */
  readonly tests: boolean;
  readonly format: number;
};

/** One process at one push: only such rolls share a tank. */
export type Group = {
  readonly process: number;
  readonly push: number;
  /** One load of it from the quickest bottles. */
  readonly minutes: number;
  readonly classes: readonly number[];
};

/** Tanks with the same reels: the one that is dry first is always as good as any other of them. */
export type TankKind = {
  readonly names: readonly string[];
  readonly cover: (demand: Demand) => Millilitres | undefined;
};

export type Problem = Shelf & {
  readonly classes: readonly RollClass[];
  readonly groups: readonly Group[];
  readonly kinds: readonly TankKind[];
  readonly minutes: number;
  readonly drying: number;
};

/** A roll that could be done as the only one, with the least solution that covers it. */
export type AbleRoll = EveningRoll & { readonly volume: Millilitres };

/** Sorts the rolls that could be done at all from those that could not, and why. */
export function poseProblem(evening: Evening): {
  readonly problem: Problem;
  readonly leftOut: readonly LeftOut[];
} {
  const kinds = tankKinds(evening.tanks);
  const leftOut: LeftOut[] = [];
  const able: AbleRoll[] = [];
  for (const roll of evening.rolls) {
    const found = alone(roll, evening, kinds);
    if ("kind" in found) leftOut.push(found);
    else able.push({ ...roll, volume: found.volume });
  }
  const supplies = evening.supplies.filter(({ process }) =>
    able.some(({ marked }) => marked === process),
  );
  const { classes, groups } = classify(able, supplies);
  return {
    problem: {
      ...shelve(supplies, able, evening.minutes),
      classes,
      groups,
      kinds,
      minutes: evening.minutes,
      drying: evening.drying,
    },
    leftOut,
  };
}

/** Why a roll could not be done tonight even as the only one, or the solution it needs. */
function alone(
  roll: EveningRoll,
  { supplies, minutes }: Evening,
  kinds: readonly TankKind[],
): LeftOut | { readonly volume: Millilitres } {
  const { id, marked, format } = roll;
  if (marked === undefined) return { kind: "marking-not-stated", roll: id };
  const supply = supplies.find(({ process }) => process === marked);
  if (roll.backing && marked !== "ECN-2") return { kind: "black-backed", roll: id };
  if (supply === undefined) {
    if (marked === "black-and-white") return { kind: "silver-in-colour", roll: id };
    if (roll.backing) return { kind: "black-backed", roll: id };
    return { kind: "no-chemistry", roll: id, process: marked };
  }
  const demand = demandOf([format]);
  const volumes = kinds.flatMap(({ cover }) => cover(demand) ?? []);
  if (volumes.length === 0) return { kind: "no-reel", roll: id, format };
  const volume = millilitres(Math.min(...volumes));
  const full = supply.baths.map((bath) =>
    bath.filter((bottle) => volume <= (bottle.volume ?? Number.POSITIVE_INFINITY)),
  );
  if (full.some((bath) => bath.length === 0)) {
    const held = supply.baths.map((bath) =>
      Math.max(...bath.map((bottle) => bottle.volume ?? Number.POSITIVE_INFINITY)),
    );
    return { kind: "too-little-solution", roll: id, volume, held: millilitres(Math.min(...held)) };
  }
  const left = full.map((bath) =>
    Math.max(...bath.map((bottle) => bottle.unitsLeft ?? Number.POSITIVE_INFINITY)),
  );
  const least = Math.min(...left);
  if (roll.units > least + SAME) return { kind: "no-capacity", roll: id, left: units(least) };
  const quickest = full.flatMap(
    (bath) =>
      bath
        .filter(({ unitsLeft }) => roll.units <= (unitsLeft ?? Number.POSITIVE_INFINITY) + SAME)
        .toSorted((one, other) => lasts(one, roll.push) - lasts(other, roll.push))[0] ?? [],
  );
  const takes = loadMinutes(supply, quickest, roll.push);
  return takes > minutes ? { kind: "no-time", roll: id, minutes: takes } : { volume };
}

export const SAME = 1e-9;

function tankKinds(tanks: readonly EveningTank[]): readonly TankKind[] {
  const kinds = new Map<string, { names: string[]; layouts: EveningTank["layouts"] }>();
  for (const { name, layouts } of tanks) {
    if (layouts.length === 0) continue;
    const key = JSON.stringify(layouts);
    const known = kinds.get(key);
    if (known === undefined) kinds.set(key, { names: [name], layouts });
    else known.names.push(name);
  }
  return [...kinds.values()].map(({ names, layouts }) => ({ names, cover: fitter({ layouts }) }));
}

function classify(
  rolls: readonly EveningRoll[],
  supplies: readonly Supply[],
): Pick<Problem, "classes" | "groups"> {
  const found = new Map<string, EveningRoll[]>();
  for (const roll of rolls) {
    const { format, marked, push, important, doubtful } = roll;
    const key = [format, marked, push, important, doubtful, roll.units].join("|");
    const alike = found.get(key);
    if (alike === undefined) found.set(key, [roll]);
    else alike.push(roll);
  }
  const groups: { process: number; push: number; minutes: number; classes: number[] }[] = [];
  const classes: RollClass[] = [];
  for (const alike of found.values()) {
    const [first] = alike;
    if (first === undefined) continue;
    const process = supplies.findIndex((supply) => supply.process === first.marked);
    let group = groups.findIndex((one) => one.process === process && one.push === first.push);
    if (group < 0) {
      const supply = supplies[process];
      const quickest = (supply?.baths ?? []).flatMap(
        (bath) => bath.toSorted((a, b) => lasts(a, first.push) - lasts(b, first.push))[0] ?? [],
      );
      const minutes = supply === undefined ? 0 : loadMinutes(supply, quickest, first.push);
      group = groups.push({ process, push: first.push, minutes, classes: [] }) - 1;
    }
    groups[group]?.classes.push(classes.length);
    classes.push({
      rolls: alike,
      count: alike.length,
      units: first.units,
      group,
      process,
      important: first.important,
      tests: !first.important && !first.doubtful,
      format: filmFormats.indexOf(first.format),
    });
  }
  return { classes, groups };
}

/** Formats of a load given as a count by class. */
export function demandFor(classes: readonly RollClass[], takes: readonly number[]): number[] {
  const demand = filmFormats.map(() => 0);
  takes.forEach((count, at) => {
    const format = classes[at]?.format;
    if (format !== undefined) demand[format] = (demand[format] ?? 0) + count;
  });
  return demand;
}
