import { checkTank } from "../film/check-load.ts";
import { ownValue } from "../own-value.ts";
import { FETCH_LEAD } from "../timing/stage-clock.ts";
import {
  type Busy,
  type Hands,
  handsOf,
  maybeMoved,
  putBack,
  type Serving,
  type Share,
  type Staggered,
  stagger,
} from "../timing/stagger.ts";
import { type Instant, instant, later, type Seconds, seconds } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import { liveRuns } from "./find-run.ts";
import { currentStage, type Run, withStage } from "./run.ts";

export const servingOf = (bench: Bench): Serving => bench.serving ?? "one for all";

/** A bench may leave an hour to its first pour; taking up a bottle takes no more than fetching it. */
const takingUp = (bench: Bench, { rehearsal }: Run): Seconds =>
  seconds(Math.min(bench.lead, FETCH_LEAD) / (rehearsal?.speed ?? 1));

/** A run that waits for "ready" has no instant that could collide. */
const hasClock = (run: Run): boolean => currentStage(run)?.pourAt !== undefined;

/** What each of these runs asks of a person. */
export const handsOn = (bench: Bench, runs: readonly Run[], now: Instant): readonly Hands[] =>
  runs.filter(hasClock).map((run) =>
    handsOf(run, {
      lead: takingUp(bench, run),
      from: now,
      serving: servingOf(bench),
      share: shareOf(bench, run),
    }),
  );

/**
 * How much of a working bottle a run's tank takes, by the reels that hold its film; not known where
 * the tank's reels were never told. Water rehearses, and takes none.
 */
function shareOf(bench: Bench, { tank, film, rehearsal }: Run): Share {
  const fill = checkTank(ownValue(bench.tanks, tank.toLowerCase()), film);
  const ml = fill.ok && rehearsal === undefined ? fill.value : undefined;
  return ({ bottle: id }) => {
    const bottle = ml === undefined || id === undefined ? undefined : ownValue(bench.bottles, id);
    if (ml === undefined || bottle === undefined || bottle.role !== undefined) return undefined;
    return { bottle: bottle.id, share: ml / bottle.volume };
  };
}

/** The same from now on: what hands have done binds nobody. */
const handsFrom = (bench: Bench, runs: readonly Run[], now: Instant): readonly Hands[] =>
  handsOn(bench, runs, now).map(({ holds, ...hands }) => ({
    ...hands,
    busy: hands.busy.flatMap((span) => fromNow(span, now)),
    ...(holds === undefined ? {} : { holds: holds.flatMap((span) => fromNow(span, now)) }),
  }));

const fromNow = <S extends Busy>(span: S, now: Instant): readonly S[] =>
  span.to <= now ? [] : [{ ...span, from: instant(Math.max(span.from, now)) }];

const others = (bench: Bench, run: Run): readonly Run[] =>
  liveRuns(bench).filter(({ id }) => id !== run.id);

const staggered = (bench: Bench, run: Run, those: readonly Run[], now: Instant): Staggered => {
  const [fresh] = handsOn(bench, [run], now);
  return fresh === undefined
    ? { kind: "delay", delay: seconds(0), met: undefined }
    : stagger(fresh, handsFrom(bench, those, now));
};

export type Placed = { readonly run: Run; readonly found: Staggered };

const placed = (run: Run, found: Staggered): Placed => {
  const pourAt = run.stages[0]?.pourAt;
  if (found.kind === "no-room" || pourAt === undefined) return { run, found };
  return { run: withStage(run, 0, { pourAt: later(pourAt, found.delay) }), found };
};

/** A run being planned, put off until no hands are wanted in two places. */
export const placeStart = (bench: Bench, run: Run, now: Instant): Placed =>
  placed(run, staggered(bench, run, others(bench, run), now));

/**
 * A run whose first pour is wanted at once. Runs that may still be moved give way to it; those
 * that are wet do not, and it is put off for them.
 */
export const placeReady = (bench: Bench, run: Run, now: Instant): Placed => {
  const firm = others(bench, run).filter((one) => !maybeMoved(one, now));
  return placed(run, staggered(bench, run, firm, now));
};

export type KeptApart = {
  readonly bench: Bench;
  /** Runs whose first pour was put off, as they are now, with the reason. */
  readonly moved: readonly Placed[];
  /** Runs that collide wherever they start. */
  readonly stuck: readonly Placed[];
};

/** Runs in the order in which their first pours are planned. */
const byPour = (one: Run, other: Run): number =>
  (one.stages[0]?.pourAt ?? 0) - (other.stages[0]?.pourAt ?? 0) ||
  one.plannedAt - other.plannedAt ||
  one.id.localeCompare(other.id, "en", { numeric: true });

/**
 * Puts off runs that have not begun, so that no two pours or pourings out of one person meet. A
 * run that has begun is never moved, and none is ever moved forward. Without a collision nothing
 * changes.
 */
export function keepApart(bench: Bench, now: Instant): KeptApart {
  const runs = liveRuns(bench).filter(hasClock);
  const set: Run[] = runs.filter((run) => !maybeMoved(run, now));
  const moved: Placed[] = [];
  const stuck: Placed[] = [];
  let kept = bench;
  for (const run of runs.filter((one) => maybeMoved(one, now)).toSorted(byPour)) {
    const found = staggered(bench, run, set, now);
    const after = found.kind === "delay" ? putBack(run, found.delay, now) : run;
    if (found.kind === "no-room") stuck.push({ run, found });
    if (after !== run) {
      moved.push({ run: after, found });
      kept = { ...kept, runs: { ...kept.runs, [run.id]: after } };
    }
    set.push(after);
  }
  return { bench: kept, moved, stuck };
}
