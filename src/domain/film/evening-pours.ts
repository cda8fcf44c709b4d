import { lasts } from "./evening.ts";
import type { Problem } from "./evening-problem.ts";
import { FRESH, LATE, type Pour, pourOf, type Standing } from "./evening-step.ts";

/** Bottles looked at for a bath, besides the one that comes first. */
const OTHERS = 3;

/** How many choices `pourChoices` gives at most. */
export const mostChoices = (problem: Problem, group: number): number =>
  (problem.processes[problem.groups[group]?.process ?? -1]?.baths ?? []).reduce(
    (sum, { length }) => sum + Math.min(OTHERS, length - 1),
    1,
  );

/**
 * The pours worth a look where all cannot be tried: of each bath the bottle next in order, and
 * beside that pour those in which one bath is taken from another bottle: the one that can take
 * most, the quickest, one that may still take important rolls.
 */
export function pourChoices(problem: Problem, standing: Standing, group: number): readonly Pour[] {
  const { process = -1, push = 0, classes = [] } = problem.groups[group] ?? {};
  const baths = problem.processes[process]?.baths ?? [];
  const least = classes.reduce((film, id) => {
    const { count = 0, units = 0 } = problem.classes[id] ?? {};
    return (standing.done[id] ?? 0) < count ? Math.min(film, units) : film;
  }, Number.POSITIVE_INFINITY);
  const left = (id: number): number => (problem.bottles[id]?.left ?? 0) - (standing.spent[id] ?? 0);
  const phase = (id: number): number => standing.phase[id] ?? FRESH;
  const time = (id: number): number => {
    const bottle = problem.bottles[id]?.bottle;
    return bottle === undefined ? 0 : lasts(bottle, push);
  };
  const ranked = baths.map((bath) => {
    const able = bath.filter((id) => left(id) >= least - 1e-9);
    const top = (worth: (id: number) => number) =>
      able.reduce<number | undefined>(
        (best, id) => (best === undefined || worth(id) > worth(best) ? id : best),
        undefined,
      );
    const choices = [
      top((id) => -Number(problem.bottles[id]?.doubtful === true && phase(id) === FRESH)),
      top(left),
      top((id) => -time(id)),
      top((id) => -Number(phase(id) === LATE)),
    ];
    return [...new Set(choices)].filter((id) => id !== undefined);
  });
  const first = ranked.flatMap(([id]) => id ?? []);
  if (first.length < baths.length) return [];
  const pours = [first];
  for (const [at, [, ...others]] of ranked.entries()) {
    for (const id of others) pours.push(first.with(at, id));
  }
  return pours.map((bottles) => pourOf(problem, group, bottles));
}
