import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { latestRun, runOfTank } from "../domain/session/find-run.ts";
import { allRuns, type Past } from "../domain/session/past.ts";
import type { Run } from "../domain/session/run.ts";
import type { Reads } from "./work.ts";

/** How a run is named: by its tank, whose latest is meant, by its number, or by its id. */
export type Naming = {
  readonly tank?: string | undefined;
  readonly number?: number | undefined;
  readonly run?: string | undefined;
};

const idOf = ({ run, number }: Naming): string | undefined =>
  run ?? (number === undefined ? undefined : `run-${number}`);

function atHand(bench: Bench, named: Naming): Run | undefined {
  const id = idOf(named);
  if (id !== undefined) return ownValue(bench.runs, id);
  const { tank } = named;
  return tank === undefined ? latestRun(bench) : runOfTank(bench, tank);
}

/** The run that was named, at hand or in a file; the latest where none was named. */
export function runNamed(bench: Bench, past: Past, named: Naming): Run | undefined {
  const { tank } = named;
  const id = idOf(named);
  const here = atHand(bench, named);
  if (here !== undefined) return here;
  return allRuns(bench, past).findLast((run) =>
    id === undefined
      ? tank !== undefined && run.tank.toLowerCase() === tank.toLowerCase()
      : run.id === id,
  );
}

/** Files are only read for a run that is not at hand. */
export function pastOfNamed(
  bench: Bench,
  { tank, number, run }: Readonly<Record<string, unknown>>,
): Reads | undefined {
  const named: Naming = {
    ...(typeof tank === "string" ? { tank } : {}),
    ...(typeof number === "number" ? { number } : {}),
    ...(typeof run === "string" ? { run } : {}),
  };
  return atHand(bench, named) === undefined && bench.pastRuns.length > 0 ? "past-runs" : undefined;
}
