import type { Bench } from "../session/bench.ts";
import type { Happening } from "../session/decide.ts";
import { type Run, withStage } from "../session/run.ts";
import type { Cue } from "../timing/cues.ts";
import { stageClock } from "../timing/stage-clock.ts";
import { secondsBetween } from "../units/quantity.ts";

/** A beat told later than this, s, was of no use to the hand. */
const LATE = 2;

/**
 * The bench with a word about the beats among what came due that nobody could follow: they fell
 * into a `hold`, or were told late. Those that were told in time need no word.
 */
export function withBeatsTold(bench: Bench, happenings: readonly Happening[]): Bench {
  let { runs } = bench;
  for (const { run, event, late } of happenings) {
    if (event.kind !== "cues" || (!run.quiet && late <= LATE)) continue;
    const known = runs[run.id];
    if (known === undefined) continue;
    const noted = event.cues.reduce((all, cue) => withBeat(all, cue, run.quiet), known);
    if (noted !== known) runs = { ...runs, [run.id]: noted };
  }
  return runs === bench.runs ? bench : { ...bench, runs };
}

function withBeat(run: Run, { kind, stage: index, at }: Cue, quiet: boolean): Run {
  const stage = run.stages[index];
  if ((kind !== "beat" && kind !== "agitate") || stage?.pourAt === undefined) return run;
  const { start } = stageClock(stage, stage.pourAt, run.window);
  const into = secondsBetween(start, at);
  return withStage(
    run,
    index,
    quiet
      ? { beatsSilent: [...(stage.beatsSilent ?? []), into] }
      : { beatsLate: [...(stage.beatsLate ?? []), into] },
  );
}
