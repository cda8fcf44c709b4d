import { type Given, give, nextReminder } from "../reminders/give.ts";
import { type Looks, noLooks } from "../reminders/looks.ts";
import { type Instant, instant, type Seconds, secondsBetween } from "../units/quantity.ts";
import { applyEvent, nextEvent, type RunEvent } from "./advance.ts";
import type { Bench } from "./bench.ts";
import { countFilm } from "./count-film.ts";
import { followBottles, type Retimed } from "./follow-bottles.ts";
import { isLive, type Run } from "./run.ts";

/** Something that came due: in which run, what, and how long ago. */
export type Happening = {
  readonly run: Run;
  readonly event: RunEvent;
  readonly late: Seconds;
  /** Developer times of other runs that are others now; missing when there are none. */
  readonly retimed?: readonly Retimed[];
};

/** All that came due: what runs did, and beside it the reminders and the daily message. */
export type Decided = {
  readonly bench: Bench;
  readonly happenings: readonly Happening[];
  /** Missing when there was none. */
  readonly given?: readonly Given[];
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

/** When a run is next moved on by the clock; undefined while none is. Nothing while it is dark. */
export const nextCue = (bench: Bench): Instant | undefined =>
  bench.mode === "dark" ? undefined : soonest(bench)?.event.at;

/**
 * When the clock next does something to this bench, by a run or by a reminder. Nothing while it is
 * dark: whatever comes due then is told once the light is on.
 */
export function nextDue(bench: Bench): Instant | undefined {
  if (bench.mode === "dark") return undefined;
  const cue = soonest(bench)?.event.at;
  const told = nextReminder(bench)?.at;
  if (cue === undefined || told === undefined) return cue ?? told;
  return instant(Math.min(cue, told));
}

/**
 * Everything that has come due by `now`, in order, and the bench after it. Pure: the same bench
 * and instant always give the same answer, so a restart only has to ask again. `looks` tells what
 * the daily message may speak of beside the reminders.
 */
export function decide(bench: Bench, now: Instant, looks: Looks = noLooks): Decided {
  const happenings: Happening[] = [];
  const given: Given[] = [];
  let current = bench;
  if (bench.mode === "dark") return { bench, happenings };
  for (let guard = 0; guard < MOST_EVENTS; guard += 1) {
    const due = soonest(current);
    const waiting = nextReminder(current);
    // A run goes first: it may be what holds a reminder back.
    const first = due !== undefined && due.event.at <= (waiting?.at ?? now);
    if (waiting !== undefined && waiting.at <= now && !first) {
      const after = give(current, waiting, now, looks);
      current = after.bench;
      if (after.given !== undefined) given.push(after.given);
      continue;
    }
    if (due === undefined || due.event.at > now) {
      return { bench: current, happenings, ...(given.length === 0 ? {} : { given }) };
    }
    const run = applyEvent(due.run, due.event);
    current = countFilm({ ...current, runs: { ...current.runs, [run.id]: run } }, run.id);
    // A cue moves nothing, so nothing that waits is another by it.
    const followed = due.event.kind === "cues" ? undefined : followBottles(current, due.event.at);
    current = followed?.bench ?? current;
    happenings.push({
      run: current.runs[run.id] ?? run,
      event: due.event,
      late: secondsBetween(due.event.at, now),
      ...(followed === undefined || followed.retimed.length === 0
        ? {}
        : { retimed: followed.retimed }),
    });
  }
  throw new Error("a run does not come to an end");
}
