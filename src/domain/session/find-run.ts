import type { Bench } from "./bench.ts";
import { isLive, type Run } from "./run.ts";

export const liveRuns = (bench: Bench): readonly Run[] => Object.values(bench.runs).filter(isLive);

/** The run of a tank by its spoken name; live ones first, then the latest. */
export function runOfTank(bench: Bench, tank: string): Run | undefined {
  const named = Object.values(bench.runs).filter(
    (run) => run.tank.toLowerCase() === tank.toLowerCase(),
  );
  return named.find(isLive) ?? latest(named);
}

export const latestRun = (bench: Bench): Run | undefined => latest(Object.values(bench.runs));

/** Open runs come after ended ones; those by their end, open ones by their start. */
const order = (a: Run, b: Run): number =>
  Number(isLive(a)) - Number(isLive(b)) || (a.endedAt ?? a.plannedAt) - (b.endedAt ?? b.plannedAt);

const latest = (runs: readonly Run[]): Run | undefined => runs.toSorted(order).at(-1);
