import { ownValue } from "../own-value.ts";
import type { Bench } from "./bench.ts";
import { deeds, type Run, type Stage } from "./run.ts";

type Deed = (typeof deeds)[number];

/**
 * Puts the name of the one who spoke beside what their words did to each run: who planned it, who
 * poured in and out of each bath, and in the list of people what each of them did. What the clock
 * only assumed is nobody's.
 */
export function signWork(before: Bench, after: Bench, who: string): Bench {
  if (after.runs === before.runs) return after;
  let signed = false;
  const runs = Object.entries(after.runs).map(([id, run]): readonly [string, Run] => {
    const was = ownValue(before.runs, id);
    if (was === run) return [id, run];
    const now = signRun(was, run, who);
    signed ||= now !== run;
    return [id, now];
  });
  return signed ? { ...after, runs: Object.fromEntries(runs) } : after;
}

function signRun(was: Run | undefined, run: Run, who: string): Run {
  // An old run that was fetched from its file: what was done in it is signed already.
  if (was === undefined && run.endedAt !== undefined) return withDeeds(run, who, ["answered"]);
  const stages = run.stages.map((stage, index) => signStage(was?.stages[index], stage, who));
  const same = stages.every((stage, index) => stage === run.stages[index]);
  const poured = stages.some((stage, index) => pouredNow(was?.stages[index], stage));
  const done = withDeeds(run, who, [...deedsOf(was, run), ...(poured ? ["poured" as const] : [])]);
  if (was === undefined) return { ...done, by: run.by ?? who, stages };
  return same ? done : { ...done, stages };
}

/** What somebody's words did to a run, beside pouring. */
function deedsOf(was: Run | undefined, run: Run): readonly Deed[] {
  if (was === undefined) return ["planned"];
  return [
    ...(run.readings.length > was.readings.length ? ["read" as const] : []),
    ...(run.notes.length > was.notes.length ? ["noted" as const] : []),
    ...(run.after !== was.after || run.firstLook !== was.firstLook ? ["answered" as const] : []),
  ];
}

/** The run with somebody's deeds added to theirs, each once; the same run where all are known. */
function withDeeds(run: Run, who: string, did: readonly Deed[]): Run {
  const own = run.people?.find(({ name }) => name === who)?.did ?? [];
  const all = deeds.filter((deed) => own.includes(deed) || did.includes(deed));
  if (all.length === own.length) return run;
  const others = (run.people ?? []).filter(({ name }) => name !== who);
  return { ...run, people: [...others, { name: who, did: all }] };
}

const pouredNow = (was: Stage | undefined, stage: Stage): boolean =>
  stage.skipped !== true &&
  stage.inAt !== undefined &&
  stage.plusMinus === undefined &&
  (stage.inAt !== was?.inAt || was?.plusMinus !== undefined);

const outNow = (was: Stage | undefined, stage: Stage): boolean =>
  stage.skipped !== true &&
  stage.outAt !== undefined &&
  stage.outByClock !== true &&
  (stage.outAt !== was?.outAt || was?.outByClock === true);

function signStage(was: Stage | undefined, stage: Stage, who: string): Stage {
  const poured = pouredNow(was, stage);
  const out = outNow(was, stage);
  if (!(poured || out)) return stage;
  return { ...stage, ...(poured ? { inBy: who } : {}), ...(out ? { outBy: who } : {}) };
}
