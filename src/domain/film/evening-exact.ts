import { compareScores, type Score } from "./evening.ts";
import { allLoads } from "./evening-loads.ts";
import { type Problem, SAME } from "./evening-problem.ts";
import {
  allPours,
  dominates,
  endOf,
  type Load,
  openedBy,
  opening,
  type Pour,
  type Standing,
  spares,
  step,
} from "./evening-step.ts";

/** Part-backlogs to look at: 12 rolls that are all different make 4096. */
const MOST_STATES = 4096;
/** Part-backlogs times loads, over all kinds of tank. */
const MOST_WORK = 4_000_000;
const MOST_LOADS = 4096;
/** Choices of bottles for one load. */
const MOST_POURS = 600;
/** Loads tried in all: what bounds the time where the choice of bottles is wide. */
const MOST_TRIES = 700_000;
const ALWAYS = 12;

type Searched = { readonly best: Standing; readonly proven: boolean };

/**
 * The best plan there is, by dynamic programming over how many rolls of each class are done. Rolls
 * that are alike count as one class, so the states are few; per state only standings that no other
 * dominates are kept, and one that cannot lead to a better plan than the best so far is dropped.
 *
 * @param bound a plan to begin with; it stands where none is better
 *
 * @returns the best found, and whether all was searched through; where the backlog is too large or
 *   the bottles are too many for that, it is not
 */
export function planExactly(problem: Problem, bound: Standing): Searched {
  const unsearched = { best: bound, proven: false };
  const { classes } = problem;
  const rolls = classes.reduce((sum, { count }) => sum + count, 0);
  const states = classes.reduce((product, { count }) => product * (count + 1), 1);
  const must = rolls <= ALWAYS;
  if (!must && states > MOST_STATES) return unsearched;
  const loads = problem.kinds.map((_, kind) => allLoads(problem, kind, MOST_LOADS));
  const work = states * loads.reduce((sum, list) => sum + (list?.length ?? MOST_LOADS), 0);
  if (!must && (work > MOST_WORK || loads.includes(undefined))) return unsearched;
  const pours = problem.groups.map((_, group) => allPours(problem, group, MOST_POURS));
  if (pours.includes(undefined)) return unsearched;

  const stride = classes.map(() => 1);
  for (let at = classes.length - 2; at >= 0; at -= 1) {
    stride[at] = (stride[at + 1] ?? 1) * ((classes[at + 1]?.count ?? 0) + 1);
  }
  const steps = loads.map((list) =>
    (list ?? []).map((load) => ({ load, ...sparse(load, stride) })),
  );
  const table: (Standing[] | undefined)[] = new Array(states);
  table[0] = [opening(problem)];
  const hope = hopes(problem, loads, stride, states);
  let best = bound;
  let tries = 0;
  for (let state = 0; state < states; state += 1) {
    const standings = table[state];
    if (standings === undefined) continue;
    table[state] = undefined;
    for (const standing of standings) {
      if (!hope(state, standing.score, standing.done, [], best.score)) continue;
      const open = openPours(problem, standing, pours);
      for (const [kind, list] of steps.entries()) {
        for (const { load, at, counts, delta } of list) {
          if (!remain(problem, standing.done, at, counts)) continue;
          for (const pour of open[load.group] ?? []) {
            tries += 1;
            const time = endOf(problem, standing, kind, load, pour);
            if (time === undefined) continue;
            const { important, rolls, units, doubtful } = standing.score;
            const score = {
              important: important + load.important,
              rolls: rolls + load.rolls,
              units: units + load.units,
              doubtful: doubtful + openedBy(problem, standing, pour),
              minutes: time,
            };
            const better = compareScores(score, best.score) < 0;
            const hopeful = hope(state + delta, score, standing.done, load.takes, best.score);
            if (!better && !hopeful) continue;
            const next = step(problem, standing, kind, load, pour);
            if (next === undefined) continue;
            if (better) best = next;
            if (hopeful) tries += keep(problem, table, state + delta, next);
          }
        }
        if (tries > MOST_TRIES) return { best, proven: false };
      }
    }
  }
  return { best, proven: true };
}

/** By group, the pours worth trying now. */
function openPours(
  problem: Problem,
  standing: Standing,
  pours: readonly (readonly Pour[] | undefined)[],
): readonly (readonly Pour[])[] {
  const spare = spares(problem, standing);
  return pours.map((list = []) =>
    spare.size === 0 ? list : list.filter(({ bottles }) => !bottles.some((id) => spare.has(id))),
  );
}

/** The classes a load takes from, and how far it moves the state. */
function sparse(
  load: Load,
  stride: readonly number[],
): { readonly at: readonly number[]; readonly counts: readonly number[]; readonly delta: number } {
  const at = load.takes.flatMap((count, index) => (count > 0 ? [index] : []));
  const counts = at.map((index) => load.takes[index] ?? 0);
  const delta = at.reduce((sum, index, i) => sum + (counts[i] ?? 0) * (stride[index] ?? 0), 0);
  return { at, counts, delta };
}

function remain(
  { classes }: Problem,
  done: readonly number[],
  at: readonly number[],
  counts: readonly number[],
): boolean {
  for (let i = 0; i < at.length; i += 1) {
    const index = at[i] ?? 0;
    if ((done[index] ?? 0) + (counts[i] ?? 0) > (classes[index]?.count ?? 0)) return false;
  }
  return true;
}

/** Keeps a standing unless one is as good; returns how many it was compared with. */
function keep(
  problem: Problem,
  table: (Standing[] | undefined)[],
  state: number,
  next: Standing,
): number {
  const known = table[state];
  if (known === undefined) {
    table[state] = [next];
    return 0;
  }
  if (known.some((one) => dominates(problem, one, next))) return known.length;
  let kept = 0;
  for (const one of known) {
    if (!dominates(problem, next, one)) known[kept++] = one;
  }
  known.length = kept;
  known.push(next);
  return kept;
}

/** What is done of a backlog, whatever the time and the bottles. */
type Part = Pick<Score, "important" | "rolls" | "units">;

/** The first of two parts of the backlog is worth more, whatever the time. */
const worthMore = (a: Part, b: Part): boolean =>
  compareScores({ ...a, doubtful: 0, minutes: 0 }, { ...b, doubtful: 0, minutes: 0 }) < 0;

/**
 * By state: the most that can be done at last from there, as far as the capacity of the baths
 * goes; tanks and time left out of it.
 */
function ceilings(problem: Problem, stride: readonly number[], states: number) {
  const { classes, processes } = problem;
  const best: (Part | undefined)[] = new Array(states);
  const most: number[] = new Array(states).fill(0);
  for (let state = states - 1; state >= 0; state -= 1) {
    const spent = processes.map(() => 0);
    const own = { important: 0, rolls: 0, units: 0 };
    for (const [at, one] of classes.entries()) {
      const done = Math.floor(state / (stride[at] ?? 1)) % (one.count + 1);
      spent[one.process] = (spent[one.process] ?? 0) + done * one.units;
      own.rolls += done;
      own.units += done * one.units;
      if (one.important) own.important += done;
      if (done === one.count) continue;
      const above = state + (stride[at] ?? 0);
      const higher = best[above];
      const here = best[state];
      if (higher !== undefined && (here === undefined || worthMore(higher, here))) {
        best[state] = higher;
      }
      most[state] = Math.max(most[state] ?? 0, most[above] ?? 0);
    }
    const within = processes.every(({ all }, at) => (spent[at] ?? 0) <= all + SAME);
    if (!within) continue;
    const here = best[state];
    if (here === undefined || worthMore(own, here)) best[state] = own;
    most[state] = Math.max(most[state] ?? 0, own.rolls);
  }
  return { best, most };
}

/**
 * May a standing still lead to something better? It is asked of a rosy future: all that the baths
 * can take, in loads as full as any, one after the other without a wait.
 */
function hopes(
  problem: Problem,
  loads: readonly (readonly Load[] | undefined)[],
  stride: readonly number[],
  states: number,
): (
  state: number,
  score: Score,
  done: readonly number[],
  takes: readonly number[],
  best: Score,
) => boolean {
  const { classes, groups } = problem;
  const quickest = Math.min(...groups.map(({ minutes }) => minutes));
  const fullest = groups.map((_, group) =>
    Math.max(
      1,
      ...loads.flatMap((list) =>
        (list ?? []).flatMap((load) => (load.group === group ? [load.rolls] : [])),
      ),
    ),
  );
  const fullestOfAll = Math.max(1, ...fullest);
  const ceiling = ceilings(problem, stride, states);

  /** Minutes of the loads without which `rolls` more cannot be done, group by group. */
  const needed = (done: readonly number[], takes: readonly number[], rolls: number): number => {
    const waiting = groups.map(() => 0);
    for (const [at, { count, group }] of classes.entries()) {
      waiting[group] = (waiting[group] ?? 0) + count - (done[at] ?? 0) - (takes[at] ?? 0);
    }
    const total = waiting.reduce((sum, count) => sum + count, 0);
    const sizes: number[] = [];
    let all = 0;
    for (const [at, { minutes }] of groups.entries()) {
      const full = fullest[at] ?? 1;
      for (let left = waiting[at] ?? 0; left > 0; left -= full) {
        sizes.push(Math.min(left, full));
        all += minutes;
      }
    }
    if (rolls >= total) return all;
    sizes.sort((a, b) => b - a);
    let some = 0;
    let loads = 0;
    while (some < rolls && loads < sizes.length) {
      some += sizes[loads] ?? 0;
      loads += 1;
    }
    return loads * quickest;
  };

  return (state, score, done, takes, best) => {
    const time = score.minutes;
    const top = ceiling.best[state];
    const room = Math.floor((problem.minutes - time) / quickest + SAME) * fullestOfAll;
    if (top === undefined || room < 1 || top.rolls === score.rolls) return false;
    const { doubtful } = score;
    const gain = compareScores({ ...top, doubtful, minutes: 0 }, { ...best, minutes: 0 });
    if (gain > 0) return false;
    if (gain === 0) {
      return time + needed(done, takes, best.rolls - score.rolls) < best.minutes - SAME;
    }
    const important = Math.min(top.important, score.important + room);
    if (important !== best.important) return important > best.important;
    return Math.min(ceiling.most[state] ?? 0, score.rolls + room) >= best.rolls;
  };
}
