import { millilitres, units } from "../units/quantity.ts";
import type { Evening, EveningPlan, EveningRoll, LeftOut, PlannedLoad } from "./evening.ts";
import { planByBeam } from "./evening-beam.ts";
import { planExactly } from "./evening-exact.ts";
import { demandFor, type Problem, poseProblem, SAME } from "./evening-problem.ts";
import type { Standing } from "./evening-step.ts";

/** Reels dry half an hour under a warm dryer before they take film again (common practice, no source). */
export const DRYING_MINUTES = 30;
/** Loading reels in the dark, bringing baths to heat, washing up after: by load (common practice, no source). */
export const SETTING_UP_MINUTES = 15;

/**
 * Packs a backlog into tank loads for one person, one load after the other.
 *
 * A load holds rolls of one process and one push that fit one layout of reels of one tank, under
 * no more solution than there is. A tank takes film again when its reels are dry. Per process the
 * film stays within the capacity left, a doubtful bath is first tried on rolls that do not matter,
 * and important rolls go in before the others. What is best is `compareScores`; up to 12 rolls,
 * and for larger backlogs of few kinds, the plan is the best there is, else a good one.
 */
export function planEvening(evening: Evening): EveningPlan {
  const { problem, leftOut, clipTests } = poseProblem(evening);
  const good = planByBeam(problem);
  const exact = problem.classes.length === 0 ? good : planExactly(problem, good);
  const last = exact ?? good;
  const loads = tell(problem, last);
  const used = new Set(loads.map(({ process }) => process));
  return {
    loads,
    leftOut: inOrder(evening, [...leftOut, ...waiting(problem, last)]),
    minutes: last.time,
    clipTests: clipTests.map(({ process }) => process).filter((process) => used.has(process)),
    optimal: exact !== undefined,
  };
}

function steps(last: Standing): readonly Standing[] {
  const all: Standing[] = [];
  for (let at: Standing | undefined = last; at?.load !== undefined; at = at.before) all.push(at);
  return all.reverse();
}

/** The plan with real rolls and tanks: of rolls that are alike, the one added first goes first. */
function tell(problem: Problem, last: Standing): readonly PlannedLoad[] {
  const next = problem.classes.map(() => 0);
  const free = problem.kinds.map(({ names }) => names.map((name) => ({ name, from: 0 })));
  let before = 0;
  return steps(last).flatMap(({ load, kind, time, spent, before: from }): PlannedLoad[] => {
    const group = problem.groups[load?.group ?? -1];
    const process = problem.processes[load?.process ?? -1];
    const tanks = free[kind] ?? [];
    const tank = tanks.reduce((dry, one) => (one.from < dry.from ? one : dry), {
      name: "",
      from: Number.POSITIVE_INFINITY,
    });
    if (load === undefined || group === undefined || process === undefined) return [];
    const start = time - group.minutes;
    const rolls = load.takes.flatMap((count, at) => {
      const first = next[at] ?? 0;
      next[at] = first + count;
      return (problem.classes[at]?.rolls ?? []).slice(first, first + count).map(({ id }) => id);
    });
    const planned: PlannedLoad = {
      process: process.process,
      push: group.push,
      tank: tank.name,
      rolls,
      start,
      end: time,
      waited: start - before,
      volume: problem.kinds[kind]?.cover(demandFor(problem.classes, load.takes)) ?? millilitres(0),
      units: units(load.units),
      unitsAfter:
        process.unitsLeft === undefined
          ? undefined
          : units(Math.max(0, process.unitsLeft - (spent[load.process] ?? 0))),
      test: process.needsTest && from?.phase[load.process] === 0,
    };
    tank.from = time + problem.drying;
    before = time;
    return [planned];
  });
}

/** Rolls that could have been done and are not: which limit they met. */
function waiting(problem: Problem, last: Standing): readonly LeftOut[] {
  const pushes = steps(last).map(({ load }) => problem.groups[load?.group ?? -1]);
  return problem.classes.flatMap((one, at): readonly LeftOut[] => {
    const process = problem.processes[one.process];
    const group = problem.groups[one.group];
    if (process === undefined || group === undefined) return [];
    const left =
      process.unitsLeft === undefined
        ? undefined
        : units(Math.max(0, process.unitsLeft - (last.spent[one.process] ?? 0)));
    const shares = pushes.some(
      (other) => other?.process === group.process && other.push !== group.push,
    );
    const own = pushes.some((other) => other === group);
    return one.rolls.slice(last.done[at]).map(({ id: roll }): LeftOut => {
      if (left !== undefined && one.units > left + SAME) return { kind: "no-capacity", roll, left };
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
