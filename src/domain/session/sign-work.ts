import type { Bench } from "./bench.ts";
import type { Run, Stage } from "./run.ts";

/**
 * Puts the name of the one who spoke beside what their words did to a run: who planned it, who
 * poured in and who poured out. What the clock only assumed is nobody's.
 */
export function signWork(before: Bench, after: Bench, who: string): Bench {
  if (after.runs === before.runs) return after;
  let signed = false;
  const runs = Object.entries(after.runs).map(([id, run]): readonly [string, Run] => {
    const was = before.runs[id];
    if (was === run) return [id, run];
    const now = signRun(was, run, who);
    signed ||= now !== run;
    return [id, now];
  });
  return signed ? { ...after, runs: Object.fromEntries(runs) } : after;
}

function signRun(was: Run | undefined, run: Run, who: string): Run {
  const stages = run.stages.map((stage, index) => signStage(was?.stages[index], stage, who));
  const same = stages.every((stage, index) => stage === run.stages[index]);
  if (was === undefined) return { ...run, by: run.by ?? who, stages };
  return same ? run : { ...run, stages };
}

function signStage(was: Stage | undefined, stage: Stage, who: string): Stage {
  const poured = stage.inAt !== undefined && stage.plusMinus === undefined;
  const pouredNow = poured && (stage.inAt !== was?.inAt || was?.plusMinus !== undefined);
  const out = stage.outAt !== undefined && stage.outByClock !== true;
  const outNow = out && (stage.outAt !== was?.outAt || was?.outByClock === true);
  if (stage.skipped === true || !(pouredNow || outNow)) return stage;
  return { ...stage, ...(pouredNow ? { inBy: who } : {}), ...(outNow ? { outBy: who } : {}) };
}
