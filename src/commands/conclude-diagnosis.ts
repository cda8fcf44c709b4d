import { faultTables } from "../data/faults.ts";
import { type Diagnosis, type Seen, withDiagnosis } from "../domain/faults/diagnosis.ts";
import { type RankedCause, rankCauses } from "../domain/faults/rank.ts";
import { type Bench, takeId } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { logOf, type RunLog } from "./diagnosis-log.ts";

export type Concluded = {
  readonly bench: Bench;
  readonly diagnosis: Diagnosis;
  readonly log: RunLog | undefined;
  readonly ranking: readonly RankedCause[];
};

/**
 * Ranks the causes of what was seen, by what was answered and by the log of the run, and keeps the
 * ranking with the bench, so that what proves true can be told later. A search under way ends.
 */
export function concludeDiagnosis(
  bench: Bench,
  runs: readonly Run[],
  seen: Seen,
  run: string | undefined,
  who: string,
  now: Instant,
): Concluded {
  const log = logOf(bench, runs, run);
  const ranking = rankCauses(faultTables, seen, log?.evidence ?? [], log?.run.process);
  const { diagnosing: _, ...rest } = bench;
  const { id, bench: taken } = takeId(rest, "diagnosis-");
  const diagnosis: Diagnosis = {
    symptoms: seen.symptoms,
    given: seen.given,
    ...(seen.process === undefined ? {} : { process: seen.process }),
    id,
    at: now,
    by: who,
    ...(run === undefined ? {} : { run }),
    ...(log === undefined ? {} : { tank: log.run.tank }),
    ranking: ranking.map(({ cause }) => cause.id),
  };
  const diagnoses = withDiagnosis(bench.diagnoses, diagnosis);
  return { bench: { ...taken, diagnoses }, diagnosis, log, ranking };
}
