import { demandFor, type Problem, SAME } from "./evening-problem.ts";
import { type Load, loadFrom } from "./evening-step.ts";

/** The solution a load by class needs in a tank of this kind; undefined: no room, or over `held`. */
export function volumeIn(
  problem: Problem,
  kind: number,
  held: number,
  takes: readonly number[],
): number | undefined {
  const volume = problem.kinds[kind]?.cover(demandFor(problem.classes, takes));
  return volume === undefined || volume > held ? undefined : volume;
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
    const { most: film = 0, holds = 0 } = problem.processes[group.process] ?? {};
    const choose = (at: number, volume: number, units: number): void => {
      const id = group.classes[at];
      if (id === undefined) {
        if (units > 0) loads.push(loadFrom(problem, index, [...takes], volume));
        tooMany ||= loads.length > most;
        return;
      }
      const { count = 0, units: each = 0 } = problem.classes[id] ?? {};
      for (let taken = 0; taken <= count && !tooMany; taken += 1) {
        if (units + taken * each > film + SAME) break;
        takes[id] = taken;
        const needs = taken === 0 ? volume : volumeIn(problem, kind, holds, takes);
        if (needs === undefined) break;
        choose(at + 1, needs, units + taken * each);
      }
      takes[id] = 0;
    };
    choose(0, 0, 0);
    if (tooMany) return undefined;
  }
  return loads.sort((a, b) => b.important - a.important || b.rolls - a.rolls || b.units - a.units);
}
