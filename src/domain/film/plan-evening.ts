import { millilitres, units } from "../units/quantity.ts";
import type { Evening, EveningPlan, EveningRoll, LeftOut, PlannedLoad } from "./evening.ts";
import { planByBeam } from "./evening-beam.ts";
import { planExactly } from "./evening-exact.ts";
import { type Problem, poseProblem, SAME } from "./evening-problem.ts";
import {
  FRESH,
  isTrial,
  LATE,
  type Load,
  type Pour,
  phaseAfter,
  type Standing,
  YOUNG,
} from "./evening-step.ts";

/** Reels dry half an hour under a warm dryer before they take film again (common practice, no source). */
export const DRYING_MINUTES = 30;
/** Loading reels in the dark, bringing baths to heat, washing up after: by load (common practice, no source). */
export const SETTING_UP_MINUTES = 15;

/**
 * Packs a backlog into tank loads for one person, one load after the other.
 *
 * A load holds rolls of one process and one push that fit one layout of reels of one tank, and is
 * poured from one bottle of each bath, which holds enough for it. A tank takes film again when its
 * reels are dry. Per bottle the film stays within the capacity left, a doubtful one is first tried
 * on rolls that do not matter, and important rolls go in before the others. What is best is
 * `compareScores`; up to 12 rolls, and for larger backlogs of few kinds, the plan is the best there
 * is unless the bottles are too many to weigh, else a good one; `optimal` tells.
 */
export function planEvening(evening: Evening): EveningPlan {
  const { problem, leftOut } = poseProblem(evening);
  const good = planByBeam(problem);
  const { best, proven } =
    problem.classes.length === 0 ? { best: good, proven: true } : planExactly(problem, good);
  const { loads, spent } = tell(problem, best);
  const poured = new Set(loads.flatMap(({ bottles }) => bottles));
  return {
    loads,
    leftOut: inOrder(evening, [...leftOut, ...waiting(problem, best, spent)]),
    minutes: best.time,
    clipTests: problem.bottles
      .filter(({ doubtful, needsTest }) => doubtful && !needsTest)
      .map(({ bottle }) => bottle.name)
      .filter((name) => poured.has(name)),
    optimal: proven,
  };
}

function steps(last: Standing): readonly Standing[] {
  const all: Standing[] = [];
  for (let at: Standing | undefined = last; at?.load !== undefined; at = at.before) all.push(at);
  return all.reverse();
}

/**
 * The plan with real rolls, tanks and bottles: of rolls that are alike, the one added first goes
 * first; of bottles, the one that stands where the search says.
 */
function tell(
  problem: Problem,
  last: Standing,
): { readonly loads: readonly PlannedLoad[]; readonly spent: readonly number[] } {
  const next = problem.classes.map(() => 0);
  const free = problem.kinds.map(({ names }) => names.map((name) => ({ name, from: 0 })));
  const spent = problem.bottles.map(() => 0);
  const pick = whoseTurn(problem);
  let before = 0;
  const loads = steps(last).flatMap((at): PlannedLoad[] => {
    const { load, kind, time, pour, before: from } = at;
    const group = problem.groups[load?.group ?? -1];
    const process = problem.processes[load?.process ?? -1]?.supply.process;
    if (load === undefined || group === undefined || pour === undefined) return [];
    if (process === undefined || from === undefined) return [];
    const tanks = free[kind] ?? [];
    const tank = tanks.reduce((dry, one) => (one.from < dry.from ? one : dry), {
      name: "",
      from: Number.POSITIVE_INFINITY,
    });
    const start = time - pour.minutes;
    const rolls = load.takes.flatMap((count, at) => {
      const first = next[at] ?? 0;
      next[at] = first + count;
      return (problem.classes[at]?.rolls ?? []).slice(first, first + count).map(({ id }) => id);
    });
    const poured = pick(from, pour, load);
    for (const { id } of poured) spent[id] = (spent[id] ?? 0) + load.units;
    const name = (id: number): string => problem.bottles[id]?.bottle.name ?? "";
    const lefts = poured.flatMap(({ id }) => {
      const unitsLeft = problem.bottles[id]?.bottle.unitsLeft;
      return unitsLeft === undefined ? [] : [unitsLeft - (spent[id] ?? 0)];
    });
    const planned: PlannedLoad = {
      process,
      push: group.push,
      tank: tank.name,
      bottles: poured.map(({ id }) => name(id)),
      rolls,
      start,
      end: time,
      waited: start - before,
      volume: millilitres(load.volume),
      units: units(load.units),
      unitsAfter: lefts.length === 0 ? undefined : units(Math.max(0, Math.min(...lefts))),
      tests: poured.flatMap(({ id, test }) => (test ? [name(id)] : [])),
    };
    tank.from = time + problem.drying;
    before = time;
    return [planned];
  });
  return { loads, spent };
}

/** Bottles alike change places as they are worked; this tells which one a place means at last. */
function whoseTurn(problem: Problem) {
  const { bottles, alike } = problem;
  const phase: number[] = bottles.map(({ doubtful }) => (doubtful ? FRESH : YOUNG));
  const spent = bottles.map(() => 0);
  return (from: Standing, pour: Pour, load: Load) => {
    const trial = isTrial(problem, from, pour);
    return pour.bottles.map((place) => {
      const same = alike.find((places) => places.includes(place)) ?? [place];
      const id =
        same.find((one) => phase[one] === from.phase[place] && spent[one] === from.spent[place]) ??
        place;
      const { needsTest = false, left = 0 } = bottles[id] ?? {};
      const test = needsTest && phase[id] === FRESH;
      phase[id] = phaseAfter(needsTest, phase[id] ?? FRESH, load, trial) ?? LATE;
      if (left < Number.POSITIVE_INFINITY) spent[id] = (spent[id] ?? 0) + load.units;
      return { id, test };
    });
  };
}

/** Rolls that could have been done and are not: which limit they met. */
function waiting(problem: Problem, last: Standing, spent: readonly number[]): readonly LeftOut[] {
  const pushes = steps(last).map(({ load }) => problem.groups[load?.group ?? -1]);
  return problem.classes.flatMap((one, at): readonly LeftOut[] => {
    const process = problem.processes[one.process];
    const group = problem.groups[one.group];
    if (process === undefined || group === undefined) return [];
    const lefts = process.baths.map((bath) =>
      Math.max(
        ...bath.map(
          (id) =>
            (problem.bottles[id]?.bottle.unitsLeft ?? Number.POSITIVE_INFINITY) - (spent[id] ?? 0),
        ),
      ),
    );
    const left = Math.max(0, Math.min(Number.POSITIVE_INFINITY, ...lefts));
    const shares = pushes.some(
      (other) => other?.process === group.process && other.push !== group.push,
    );
    const own = pushes.some((other) => other === group);
    return one.rolls.slice(last.done[at]).map(({ id: roll }): LeftOut => {
      if (one.units > left + SAME) return { kind: "no-capacity", roll, left: units(left) };
      return shares && !own
        ? { kind: "mixed-push", roll, push: group.push }
        : { kind: "no-time", roll, minutes: group.minutes };
    });
  });
}

function inOrder(
  { rolls }: { readonly rolls: readonly EveningRoll[] },
  leftOut: readonly LeftOut[],
): readonly LeftOut[] {
  const place = new Map(rolls.map(({ id }, at) => [id, at]));
  return leftOut.toSorted((a, b) => (place.get(a.roll) ?? 0) - (place.get(b.roll) ?? 0));
}
