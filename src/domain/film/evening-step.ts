import { loadMinutes, type Score } from "./evening.ts";
import { type Problem, SAME } from "./evening-problem.ts";

/** A load that fits a kind of tank: rolls by class. */
export type Load = {
  readonly group: number;
  readonly process: number;
  /** How many of each class, over all classes. */
  readonly takes: readonly number[];
  readonly rolls: number;
  readonly units: number;
  readonly important: number;
  readonly tests: boolean;
  /** The solution it needs, mL. */
  readonly volume: number;
};

/** The bottles a load is poured from, one a bath, and how long a load from them takes. */
export type Pour = { readonly bottles: readonly number[]; readonly minutes: number };

/**
 * An evening up to the end of a load. `done` counts rolls by class, `free` says per kind of tank
 * when each of them is dry again, soonest first, `phase` how far each bottle is.
 *
 * Bottles that are alike stand in the order of what they have done; so a number in `pour` means
 * the place in the standing before it.
 */
export type Standing = {
  readonly done: readonly number[];
  readonly time: number;
  readonly free: readonly (readonly number[])[];
  readonly phase: readonly number[];
  /** Units each bottle has done; not counted where it could take everything. */
  readonly spent: readonly number[];
  readonly score: Score;
  readonly before: Standing | undefined;
  readonly load: Load | undefined;
  readonly pour: Pour | undefined;
  readonly kind: number;
};

/** A doubtful bottle nothing was poured from; important rolls may go; only others may follow. */
export const FRESH = 0;
export const YOUNG = 1;
export const LATE = 2;

export const opening = (problem: Problem): Standing => ({
  done: problem.classes.map(() => 0),
  time: 0,
  free: problem.kinds.map(({ names }) => names.map(() => 0)),
  phase: problem.bottles.map(({ doubtful }) => (doubtful ? FRESH : YOUNG)),
  spent: problem.bottles.map(() => 0),
  score: { important: 0, rolls: 0, units: 0, doubtful: 0, minutes: 0 },
  before: undefined,
  load: undefined,
  pour: undefined,
  kind: -1,
});

/**
 * The order within one bottle: a doubtful one is tried first on rolls that do not matter, at least
 * one of them sound film; then the loads with important rolls, while it is young; then the rest.
 * A load that tries a bottle leaves the others it is poured from as young as they were.
 *
 * @param trial does the load try one of its bottles?
 * @returns the phase after the load, or undefined where it may not come now
 */
export function phaseAfter(
  needsTest: boolean,
  phase: number,
  load: Load,
  trial: boolean,
): number | undefined {
  if (phase === FRESH && needsTest) {
    return load.important === 0 && load.tests ? YOUNG : undefined;
  }
  if (trial) return Math.max(phase, YOUNG);
  if (load.important > 0) return phase === LATE ? undefined : YOUNG;
  return LATE;
}

/** Does a pour try a doubtful bottle? */
export function isTrial({ bottles }: Problem, from: Standing, pour: Pour): boolean {
  for (const id of pour.bottles) {
    if (from.phase[id] === FRESH && bottles[id]?.needsTest === true) return true;
  }
  return false;
}

/** Every way to pour a load of a group; undefined when there are more than `most`. */
export function allPours(
  problem: Problem,
  group: number,
  most: number,
): readonly Pour[] | undefined {
  const baths = problem.processes[problem.groups[group]?.process ?? -1]?.baths ?? [];
  if (baths.reduce((product, { length }) => product * length, 1) > most) return undefined;
  const choices = baths.reduce<readonly (readonly number[])[]>(
    (pours, bath) => pours.flatMap((pour) => bath.map((id) => [...pour, id])),
    [[]],
  );
  return choices.map((bottles) => pourOf(problem, group, bottles));
}

export function pourOf(problem: Problem, group: number, bottles: readonly number[]): Pour {
  const { process, push } = problem.groups[group] ?? { process: -1, push: 0 };
  const supply = problem.processes[process]?.supply;
  const real = bottles.flatMap((id) => problem.bottles[id]?.bottle ?? []);
  return { bottles, minutes: supply === undefined ? 0 : loadMinutes(supply, real, push) };
}

/** When one more load would be over, or undefined where a rule, the time or a bottle forbids it. */
export function endOf(
  problem: Problem,
  from: Standing,
  kind: number,
  load: Load,
  pour: Pour,
): number | undefined {
  const time = Math.max(from.time, from.free[kind]?.[0] ?? 0) + pour.minutes;
  if (time > problem.minutes + SAME) return undefined;
  const trial = isTrial(problem, from, pour);
  for (const id of pour.bottles) {
    const bottle = problem.bottles[id];
    if (bottle === undefined || load.volume > bottle.holds) return undefined;
    if ((from.spent[id] ?? 0) + load.units > bottle.left + SAME) return undefined;
    const phase = from.phase[id] ?? FRESH;
    if (phaseAfter(bottle.needsTest, phase, load, trial) === undefined) return undefined;
  }
  return time;
}

/** Doubtful bottles this pour is the first from. */
export function openedBy(problem: Problem, from: Standing, pour: Pour): number {
  let opened = 0;
  for (const id of pour.bottles) {
    if (from.phase[id] === FRESH && problem.bottles[id]?.doubtful === true) opened += 1;
  }
  return opened;
}

/** The standing after one more load, or undefined where it may not come now. */
export function step(
  problem: Problem,
  from: Standing,
  kind: number,
  load: Load,
  pour: Pour,
): Standing | undefined {
  const time = endOf(problem, from, kind, load, pour);
  if (time === undefined) return undefined;
  const { score } = from;
  const phase = [...from.phase];
  const spent = [...from.spent];
  const trial = isTrial(problem, from, pour);
  for (const id of pour.bottles) {
    const bottle = problem.bottles[id];
    if (bottle === undefined) continue;
    phase[id] = phaseAfter(bottle.needsTest, phase[id] ?? FRESH, load, trial) ?? LATE;
    if (bottle.left < Number.POSITIVE_INFINITY) spent[id] = (spent[id] ?? 0) + load.units;
  }
  for (const places of problem.alike) inOrderOfWork(places, phase, spent);
  return {
    done: from.done.map((count, at) => count + (load.takes[at] ?? 0)),
    time,
    free: from.free.map((frees, at) =>
      at === kind ? [...frees.slice(1), time + problem.drying] : frees,
    ),
    phase,
    spent,
    score: {
      important: score.important + load.important,
      rolls: score.rolls + load.rolls,
      units: score.units + load.units,
      doubtful: score.doubtful + openedBy(problem, from, pour),
      minutes: time,
    },
    before: from,
    load,
    pour,
    kind,
  };
}

function inOrderOfWork(places: readonly number[], phase: number[], spent: number[]): void {
  const work = places
    .map((id) => ({ phase: phase[id] ?? FRESH, spent: spent[id] ?? 0 }))
    .sort((a, b) => b.phase - a.phase || b.spent - a.spent);
  for (const [at, id] of places.entries()) {
    phase[id] = work[at]?.phase ?? FRESH;
    spent[id] = work[at]?.spent ?? 0;
  }
}

/** Of bottles alike that have done the same, one stands for all: places that need not be tried. */
export function spares(problem: Problem, { phase, spent }: Standing): ReadonlySet<number> {
  const spare = new Set<number>();
  for (const places of problem.alike) {
    for (let at = 1; at < places.length; at += 1) {
      const id = places[at] ?? -1;
      const before = places[at - 1] ?? -1;
      if (phase[id] === phase[before] && spent[id] === spent[before]) spare.add(id);
    }
  }
  return spare;
}

/** Is `one` at least as good a place to go on from as `other`, with the same rolls done? */
export function dominates({ bottles }: Problem, one: Standing, other: Standing): boolean {
  if (one.time > other.time + SAME) return false;
  for (let id = 0; id < bottles.length; id += 1) {
    const mine = one.phase[id] ?? FRESH;
    const theirs = other.phase[id] ?? FRESH;
    if (mine > theirs || (one.spent[id] ?? 0) > (other.spent[id] ?? 0) + SAME) return false;
    // A test is still to come: that asks for another load than a bottle that was opened.
    if (mine === FRESH && theirs !== FRESH && bottles[id]?.needsTest === true) return false;
  }
  for (let kind = 0; kind < one.free.length; kind += 1) {
    const mine = one.free[kind] ?? [];
    const others = other.free[kind] ?? [];
    for (let at = 0; at < mine.length; at += 1) {
      const ready = Math.max(mine[at] ?? 0, one.time);
      if (ready > Math.max(others[at] ?? 0, other.time) + SAME) return false;
    }
  }
  return true;
}

export function loadFrom(
  problem: Problem,
  group: number,
  takes: readonly number[],
  volume: number,
): Load {
  let rolls = 0;
  let units = 0;
  let important = 0;
  let tests = false;
  for (const [at, count] of takes.entries()) {
    const kind = problem.classes[at];
    if (kind === undefined || count === 0) continue;
    rolls += count;
    units += count * kind.units;
    if (kind.important) important += count;
    tests ||= kind.tests;
  }
  const process = problem.groups[group]?.process ?? -1;
  return { group, process, takes, rolls, units, important, tests, volume };
}
