import type { Bench } from "../domain/session/bench.ts";
import { latestRun, liveRuns, runOfTank } from "../domain/session/find-run.ts";
import { awaitsEnd } from "../domain/session/hear.ts";
import { currentStage, type Run } from "../domain/session/run.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { askFor, type Outcome } from "./define-command.ts";
import { stillTeaching } from "./teaching.ts";
import { stillMixing } from "./walk-words.ts";

/** The run a word at the sink is about: the named tank's, or the only one there is. */
export function runMeant(
  bench: Bench,
  tank: string | undefined,
  command: string,
  fields: Readonly<Record<string, unknown>> = {},
): { readonly run: Run } | { readonly reply: Reply } {
  if (tank !== undefined) {
    const run = runOfTank(bench, tank);
    if (run === undefined || run.endedAt !== undefined) {
      return {
        reply: refuse("no-such-run", `No tank called ${tank} is running. ${running(bench)}`, {
          say: `No tank called ${tank} is running.`,
        }),
      };
    }
    return { run };
  }
  const live = liveRuns(bench);
  const only = live[0];
  if (only === undefined) {
    if (bench.mixing !== undefined) return { reply: stillMixing(bench.mixing) };
    if (bench.draft !== undefined) return { reply: stillTeaching(bench.draft) };
    return {
      reply: refuse(
        "nothing-running",
        "No run is open. Say start developer, or start colour negative.",
        {
          say: "No run is open. Say start developer.",
        },
      ),
    };
  }
  if (live.length > 1) {
    return { reply: whichTank(bench, command, fields) };
  }
  return { run: only };
}

/** The tank whose present bath was named, where no other open run is at such a bath. */
export function tankAt(
  bench: Bench,
  tank: string | undefined,
  solution: string | undefined,
): string | undefined {
  if (tank !== undefined || solution === undefined) return tank;
  const there = liveRuns(bench).filter((run) => {
    const stage = currentStage(run);
    return stage?.bath === solution || stage?.kind === solution;
  });
  return there.length === 1 ? there[0]?.tank : undefined;
}

/** More than one run is open and none was named. */
export function whichTank(
  bench: Bench,
  command: string,
  fields: Readonly<Record<string, unknown>>,
): Reply {
  const tanks = liveRuns(bench).map((run) => run.tank);
  return askFor(command, fields, "tank", `Which tank: ${tanks.join(" or ")}?`, tanks);
}

function running(bench: Bench): string {
  const tanks = liveRuns(bench).map((run) => run.tank);
  return tanks.length === 0 ? "No run is open." : `Open: ${tanks.join(", ")}.`;
}

/** The same for words that may come just after the clock ended a run: "out", "next". */
export function runLeft(
  bench: Bench,
  tank: string | undefined,
  now: Instant,
  command: string,
): { readonly run: Run } | { readonly reply: Reply } {
  const meant = runMeant(bench, tank, command);
  if ("run" in meant || liveRuns(bench).length > 0) return meant;
  const last = tank === undefined ? latestRun(bench) : runOfTank(bench, tank);
  return last !== undefined && awaitsEnd(last, now) ? { run: last } : meant;
}

/** The bench with one run replaced, and the reply that tells it. */
export const withRun = (bench: Bench, run: Run, reply: Reply): Outcome => ({
  bench: { ...bench, runs: { ...bench.runs, [run.id]: run } },
  reply,
});

/** A word at the sink may name its tank before or after: "in", "north in", "in, tank north". */
export const withTank = (...phrases: readonly string[]): readonly string[] =>
  phrases.flatMap((phrase) => [
    `${phrase} [[in] [the] [tank] {tank} [tank]]`,
    `[tank] {tank} [tank] [is] ${phrase}`,
  ]);
