import { compareScores } from "./evening.ts";
import { volumeIn } from "./evening-loads.ts";
import { mostChoices, pourChoices } from "./evening-pours.ts";
import type { Problem, RollClass } from "./evening-problem.ts";
import {
  dominates,
  type Load,
  loadFrom,
  opening,
  type Pour,
  type Standing,
  step,
} from "./evening-step.ts";

/** Standings looked on from side by side at most, and fillings tried in all: what bounds the time. */
const WIDEST = 24;
const MOST_FILLINGS = 16_000;

type Taste = (a: RollClass, b: RollClass) => number;
type Filling = { readonly order: Taste; readonly takes: (one: RollClass) => boolean };

const earlier: Taste = () => 0;
const any = (): boolean => true;

/** The ways a tank is filled: what goes in first, and what is let in at all. */
const fillings: readonly Filling[] = [
  { order: (a, b) => Number(b.important) - Number(a.important), takes: any },
  { order: (a, b) => Number(b.tests) - Number(a.tests), takes: (one) => !one.important },
  { order: earlier, takes: (one) => one.important },
  {
    order: (a, b) => Number(b.important) - Number(a.important) || a.units - b.units,
    takes: any,
  },
];

/** The tank filled from what is left, roll by roll, as long as reels, solution and bath allow. */
function fill(
  problem: Problem,
  standing: Standing,
  kind: number,
  group: number,
  { bottles }: Pour,
  { order, takes: lets }: Filling,
): Load | undefined {
  const here = problem.groups[group];
  if (here === undefined) return undefined;
  let room = Number.POSITIVE_INFINITY;
  let held = Number.POSITIVE_INFINITY;
  for (const id of bottles) {
    const { left = 0, holds = 0 } = problem.bottles[id] ?? {};
    room = Math.min(room, left - (standing.spent[id] ?? 0));
    held = Math.min(held, holds);
  }
  let volume = 0;
  const takes = problem.classes.map(() => 0);
  const open = here.classes
    .flatMap((id) => {
      const one = problem.classes[id];
      return one !== undefined && lets(one) ? [{ id, one }] : [];
    })
    .sort((a, b) => order(a.one, b.one) || a.id - b.id);
  let rolls = 0;
  for (const { id, one } of open) {
    for (let at = standing.done[id] ?? 0; at < one.count; at += 1) {
      if (one.units > room + 1e-9) break;
      takes[id] = (takes[id] ?? 0) + 1;
      const needs = volumeIn(problem, kind, held, takes);
      if (needs === undefined) {
        takes[id] = (takes[id] ?? 0) - 1;
        break;
      }
      volume = needs;
      room -= one.units;
      rolls += 1;
    }
  }
  return rolls === 0 ? undefined : loadFrom(problem, group, takes, volume);
}

function onwards(problem: Problem, standing: Standing): readonly Standing[] {
  const found: Standing[] = [];
  for (const group of problem.groups.keys()) {
    for (const pour of pourChoices(problem, standing, group)) {
      for (const kind of problem.kinds.keys()) {
        const seen = new Set<string>();
        for (const filling of fillings) {
          const load = fill(problem, standing, kind, group, pour, filling);
          if (load === undefined) continue;
          const key = load.takes.join();
          if (seen.has(key)) continue;
          seen.add(key);
          const next = step(problem, standing, kind, load, pour);
          if (next !== undefined) found.push(next);
        }
      }
    }
  }
  return found;
}

const best = (standings: readonly Standing[]): Standing | undefined =>
  standings.reduce<Standing | undefined>(
    (top, one) => (top === undefined || compareScores(one.score, top.score) < 0 ? one : top),
    undefined,
  );

/** Always the load that gains most now, until nothing more goes. */
export function planGreedily(problem: Problem): Standing {
  let at = opening(problem);
  for (;;) {
    const next = best(onwards(problem, at));
    if (next === undefined) return at;
    at = next;
  }
}

/**
 * Beyond what can be searched through: the greedy plan, and a beam of part-plans grown load by
 * load beside it; the better of the two. So it is never worse than the greedy one.
 */
export function planByBeam(problem: Problem): Standing {
  let top = planGreedily(problem);
  let beam: readonly Standing[] = [opening(problem)];
  // As wide as reaches the end of the evening: about as many loads as the greedy plan has.
  const pours = problem.groups.reduce((sum, _, group) => sum + mostChoices(problem, group), 0);
  const fan = Math.max(1, problem.kinds.length * pours * fillings.length);
  const width = Math.min(WIDEST, Math.floor(MOST_FILLINGS / (fan * (loadsOf(top) + 2))));
  for (let left = MOST_FILLINGS; beam.length > 0 && left > 0; left -= beam.length * fan) {
    const grown = beam.flatMap((standing) => onwards(problem, standing));
    const first = best(grown);
    if (first !== undefined && compareScores(first.score, top.score) < 0) top = first;
    beam = thinned(problem, grown, Math.max(1, width));
  }
  return top;
}

function loadsOf(last: Standing): number {
  let loads = 0;
  for (let at: Standing | undefined = last; at?.load !== undefined; at = at.before) loads += 1;
  return loads;
}

/** The best of a layer, without those that another with the same rolls done dominates. */
function thinned(problem: Problem, grown: readonly Standing[], width: number): readonly Standing[] {
  const kept: Standing[] = [];
  const byDone = new Map<string, Standing[]>();
  for (const one of grown.toSorted((a, b) => compareScores(a.score, b.score))) {
    if (kept.length >= width) break;
    const key = one.done.join();
    const same = byDone.get(key) ?? [];
    if (same.some((other) => dominates(problem, other, one))) continue;
    same.push(one);
    byDone.set(key, same);
    kept.push(one);
  }
  return kept;
}
