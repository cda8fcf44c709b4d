import type { Problem } from "./evening-problem.ts";
import { demandFor } from "./evening-problem.ts";
import { type Load, loadFrom } from "./evening-step.ts";

/** Does a load by class go into a tank of this kind, under the solution that there is? */
export function goesIn(
  problem: Problem,
  kind: number,
  process: number,
  takes: readonly number[],
): boolean {
  const volume = problem.kinds[kind]?.cover(demandFor(problem.classes, takes));
  if (volume === undefined) return false;
  const held = problem.processes[process]?.volume;
  return held === undefined || volume <= held;
}

/**
 * Every load that fits a kind of tank, biggest first in each group; undefined when there are more
 * than `most`. A part of a load that fits fits too, so a branch that does not is cut.
 */
export function allLoads(
  problem: Problem,
  kind: number,
  most: number,
): readonly Load[] | undefined {
  const loads: Load[] = [];
  let tooMany = false;
  for (const [index, group] of problem.groups.entries()) {
    const takes = problem.classes.map(() => 0);
    const choose = (at: number): void => {
      const id = group.classes[at];
      if (id === undefined) {
        if (takes.some((count) => count > 0)) loads.push(loadFrom(problem, index, [...takes]));
        tooMany ||= loads.length > most;
        return;
      }
      const count = problem.classes[id]?.count ?? 0;
      for (let taken = 0; taken <= count && !tooMany; taken += 1) {
        takes[id] = taken;
        if (taken > 0 && !goesIn(problem, kind, group.process, takes)) break;
        choose(at + 1);
      }
      takes[id] = 0;
    };
    choose(0);
    if (tooMany) return undefined;
  }
  return loads.sort((a, b) => b.important - a.important || b.rolls - a.rolls || b.units - a.units);
}
