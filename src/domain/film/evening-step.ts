import type { Score } from "./evening.ts";
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
};

/**
 * An evening up to the end of a load. `done` counts rolls by class, `free` says per kind of tank
 * when each of them is dry again, soonest first, `phase` how far each process is.
 */
export type Standing = {
  readonly done: readonly number[];
  readonly time: number;
  readonly free: readonly (readonly number[])[];
  readonly phase: readonly number[];
  /** Units each process has done. */
  readonly spent: readonly number[];
  readonly score: Score;
  readonly before: Standing | undefined;
  readonly load: Load | undefined;
  readonly kind: number;
};

/** Nothing of this process done; important rolls may go; only rolls that do not matter follow. */
const FRESH = 0;
const YOUNG = 1;
const LATE = 2;

export const opening = (problem: Problem): Standing => ({
  done: problem.classes.map(() => 0),
  time: 0,
  free: problem.kinds.map(({ names }) => names.map(() => 0)),
  phase: problem.processes.map(() => FRESH),
  spent: problem.processes.map(() => 0),
  score: { important: 0, rolls: 0, units: 0, minutes: 0 },
  before: undefined,
  load: undefined,
  kind: -1,
});

/**
 * The order within one bath: a doubtful one is tried first on rolls that do not matter, at least
 * one of them sound film; then the loads with important rolls, while it is young; then the rest.
 *
 * @returns the phase after the load, or undefined where it may not come now
 */
export function phaseAfter(problem: Problem, phase: number, load: Load): number | undefined {
  if (phase === FRESH && problem.processes[load.process]?.needsTest === true) {
    return load.important === 0 && load.tests ? YOUNG : undefined;
  }
  if (load.important > 0) return phase === LATE ? undefined : YOUNG;
  return LATE;
}

/** When one more load would be over, or undefined where a rule, the time or the bath forbids it. */
export function endOf(
  problem: Problem,
  from: Standing,
  kind: number,
  load: Load,
): number | undefined {
  const process = problem.processes[load.process];
  if (process === undefined) return undefined;
  if (phaseAfter(problem, from.phase[load.process] ?? FRESH, load) === undefined) return undefined;
  const spent = (from.spent[load.process] ?? 0) + load.units;
  if (process.unitsLeft !== undefined && spent > process.unitsLeft + SAME) return undefined;
  const dry = from.free[kind]?.[0] ?? 0;
  const time = Math.max(from.time, dry) + (problem.groups[load.group]?.minutes ?? 0);
  return time > problem.minutes + SAME ? undefined : time;
}

/** The standing after one more load, or undefined where it may not come now. */
export function step(
  problem: Problem,
  from: Standing,
  kind: number,
  load: Load,
): Standing | undefined {
  const time = endOf(problem, from, kind, load);
  const phase = phaseAfter(problem, from.phase[load.process] ?? FRESH, load);
  if (time === undefined || phase === undefined) return undefined;
  const { score } = from;
  return {
    done: from.done.map((count, at) => count + (load.takes[at] ?? 0)),
    time,
    free: from.free.map((frees, at) =>
      at === kind ? [...frees.slice(1), time + problem.drying] : frees,
    ),
    phase: from.phase.with(load.process, phase),
    spent: from.spent.with(load.process, (from.spent[load.process] ?? 0) + load.units),
    score: {
      important: score.important + load.important,
      rolls: score.rolls + load.rolls,
      units: score.units + load.units,
      minutes: time,
    },
    before: from,
    load,
    kind,
  };
}

/** Is `one` at least as good a place to go on from as `other`, with the same rolls done? */
export function dominates(one: Standing, other: Standing): boolean {
  if (one.time > other.time + SAME) return false;
  for (let kind = 0; kind < one.free.length; kind += 1) {
    const mine = one.free[kind] ?? [];
    const others = other.free[kind] ?? [];
    for (let at = 0; at < mine.length; at += 1) {
      const ready = Math.max(mine[at] ?? 0, one.time);
      if (ready > Math.max(others[at] ?? 0, other.time) + SAME) return false;
    }
  }
  return one.phase.every((phase, at) => phase === other.phase[at]);
}

export function loadFrom(problem: Problem, group: number, takes: readonly number[]): Load {
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
  return { group, process, takes, rolls, units, important, tests };
}
