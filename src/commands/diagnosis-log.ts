import { faultTables, noteRules, troubleRules } from "../data/faults.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { evidenceOf } from "../domain/faults/evidence.ts";
import type { Evidence } from "../domain/faults/run-facts.ts";
import { wholeRun } from "../domain/faults/whole-run.ts";
import { checkTank } from "../domain/film/check-load.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import { JUMP_LIMIT } from "../domain/temperature/jump.ts";
import { dateOf, showDate } from "../domain/timing/clock-text.ts";
import { lookOn } from "./bottle-looks.ts";
import { ownTank } from "./own-tank.ts";

/** A run as its log tells it: all baths of that load, and what they say. */
export type RunLog = { readonly run: Run; readonly evidence: readonly Evidence[] };

/**
 * What the bench's own log says about a run.
 *
 * @param runs  all the bench has ever had, those in files of their own included
 * @returns undefined where there is no such run among them
 */
export function logOf(
  bench: Bench,
  runs: readonly Run[],
  runId: string | undefined,
): RunLog | undefined {
  const found = runId === undefined ? undefined : runs.find(({ id }) => id === runId);
  if (found === undefined) return undefined;
  const run = wholeRun(found, runs);
  const covered = checkTank(ownTank(bench, run.tank), run.film);
  const evidence = evidenceOf({
    run,
    looks: looksOf(bench, run),
    rolls: (run.rolls ?? []).flatMap((id) => ownValue(bench.rolls, id) ?? []),
    thermometers: bench.thermometers,
    suspects: bench.suspects ?? [],
    needs: covered.ok ? covered.value : undefined,
    zone: bench.zone,
    jump: bench.jumpLimit ?? JUMP_LIMIT.value,
    notes: noteRules,
    troubles: troubleRules,
  });
  return { run, evidence: [...evidence, ...shownBefore(bench, run)] };
}

function looksOf(bench: Bench, run: Run): ReadonlyMap<string, BottleLook> {
  const day = dateOf(run.plannedAt, bench.zone);
  return new Map(
    run.stages.flatMap(({ bottle: id }) => {
      const bottle = id === undefined ? undefined : ownValue(bench.bottles, id);
      return bottle === undefined ? [] : [[bottle.id, lookOn(bench, bottle, day)] as const];
    }),
  );
}

/** What a cause that proved true elsewhere is worth where the same bottle or thermometer was used. */
const BEFORE = 3;

/** The same bottle, thermometer or sheet has proved to blame for another run. */
function shownBefore(bench: Bench, run: Run): readonly Evidence[] {
  const bottles = new Set(
    run.stages.flatMap(({ bottle, inAt }) => (inAt === undefined ? [] : (bottle ?? []))),
  );
  const thermometers = new Set(run.readings.map(({ thermometer }) => thermometer?.toLowerCase()));
  return (bench.diagnoses ?? []).flatMap(({ run: other, proved }) => {
    const { culprit, cause } = proved ?? {};
    if (other === run.id || culprit === undefined || cause === undefined) return [];
    const touched =
      (culprit.kind === "bottle" && bottles.has(culprit.id)) ||
      (culprit.kind === "thermometer" && thermometers.has(culprit.id)) ||
      (culprit.kind === "sheet" && culprit.id === run.sheet);
    const name = faultTables.causes.get(cause)?.name;
    if (!touched || name === undefined || proved === undefined) return [];
    const text = `on ${showDate(dateOf(proved.at, bench.zone))} it proved true of another run that ${name}`;
    return [{ kind: "shown-before", text, causes: { [cause]: BEFORE } }];
  });
}
