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

const latest = (runs: readonly Run[]): Run | undefined =>
  runs.reduce<Run | undefined>(
    (newest, run) => (newest === undefined || run.plannedAt >= newest.plannedAt ? run : newest),
    undefined,
  );
