import { type Instant, type Seconds, secondsBetween } from "../units/quantity.ts";
import { applyEvent, nextEvent, type RunEvent } from "./advance.ts";
import type { Bench } from "./bench.ts";
import { countFilm } from "./count-film.ts";
import { isLive, type Run } from "./run.ts";

/** Something that came due: in which run, what, and how long ago. */
export type Happening = {
  readonly run: Run;
  readonly event: RunEvent;
  readonly late: Seconds;
};

/** A guard against a loop that never ends: no run has this many events. */
const MOST_EVENTS = 100_000;

function soonest(bench: Bench): { run: Run; event: RunEvent } | undefined {
  let found: { run: Run; event: RunEvent } | undefined;
  for (const run of Object.values(bench.runs)) {
    if (!isLive(run)) continue;
    const event = nextEvent(run);
    if (event !== undefined && (found === undefined || event.at < found.event.at)) {
      found = { run, event };
    }
  }
  return found;
}

/**
 * When the clock next does something to this bench. Nothing while it is dark: whatever comes due
 * then is told once the light is on.
 */
export const nextDue = (bench: Bench): Instant | undefined =>
  bench.mode === "dark" ? undefined : soonest(bench)?.event.at;

/**
 * Everything that has come due by `now`, in order, and the bench after it. Pure: the same bench
 * and instant always give the same answer, so a restart only has to ask again.
 */
export function decide(
  bench: Bench,
  now: Instant,
): { readonly bench: Bench; readonly happenings: readonly Happening[] } {
  const happenings: Happening[] = [];
  let current = bench;
  if (bench.mode === "dark") return { bench, happenings };
  for (let guard = 0; guard < MOST_EVENTS; guard += 1) {
    const due = soonest(current);
    if (due === undefined || due.event.at > now) return { bench: current, happenings };
    const run = applyEvent(due.run, due.event);
    current = countFilm({ ...current, runs: { ...current.runs, [run.id]: run } }, run.id);
    happenings.push({
      run: current.runs[run.id] ?? run,
      event: due.event,
      late: secondsBetween(due.event.at, now),
    });
  }
  throw new Error("a run does not come to an end");
}
