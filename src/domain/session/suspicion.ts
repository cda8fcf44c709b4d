import type { Bottle } from "../chemistry/bottle.ts";
import { ownValue } from "../own-value.ts";
import { type Instant, later } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import type { Run } from "./run.ts";
import { type Touched, touchedBy } from "./touched.ts";

/** What can prove bad. `id`: a bottle's or sheet's id, a thermometer's name in lower case. */
export type Culprit = {
  readonly kind: "bottle" | "sheet" | "thermometer";
  readonly id: string;
};

/** A run, at hand or moved away, and what it touched. */
export type TouchedRun = {
  readonly run: string;
  readonly tank: string;
  readonly title: string;
  readonly plannedAt: Instant;
  readonly touched: Touched;
  /** A reading named no thermometer: it is counted in, to be safe. */
  readonly unsure: boolean;
  /** The film was out of the bottle's bath before it was spoilt. */
  readonly before: boolean;
};

/** Bottles into which this one was poured, directly or by way of others, itself first. */
export function spread(bench: Bench, bottleId: string): readonly string[] {
  const reached = [bottleId];
  for (const id of reached) {
    for (const { id: other, mixedFrom } of Object.values(bench.bottles)) {
      if (mixedFrom?.includes(id) === true && !reached.includes(other)) reached.push(other);
    }
  }
  return reached;
}

/** `contaminated`: something foreign is in it. `from`: when it got in, where that is known. */
type Mishap = { readonly contaminated?: boolean; readonly from?: Instant | undefined };

/** The bench with a culprit marked, and the names of bottles that are suspect with it. */
export function markSuspect(
  bench: Bench,
  { kind, id }: Culprit,
  why: string,
  now: Instant,
  { contaminated = false, from }: Mishap = {},
): { readonly bench: Bench; readonly also: readonly string[] } {
  if (kind !== "bottle") {
    const others = (bench.suspects ?? []).filter((one) => one.kind !== kind || one.name !== id);
    return {
      bench: { ...bench, suspects: [...others, { kind, name: id, since: now, why }] },
      also: [],
    };
  }
  const first = ownValue(bench.bottles, id)?.name ?? "another bottle";
  const also: string[] = [];
  let { bottles } = bench;
  for (const reached of spread(bench, id)) {
    const bottle = bottles[reached];
    if (bottle === undefined) continue;
    const known = reached !== id && bottle.suspect !== undefined;
    if (known && !contaminated) continue;
    if (reached !== id && !known) also.push(bottle.name);
    const reason = reached === id ? why : `${first} went into it, which is suspect`;
    const suspect = suspectMark(bottle, reason, now, { contaminated, from });
    bottles = { ...bottles, [reached]: { ...bottle, suspect } };
  }
  return { bench: { ...bench, bottles }, also };
}

/** The mark a bottle gets: that something foreign is in it stays known, whatever is found later. */
export function suspectMark(
  { suspect: before }: Bottle,
  why: string,
  now: Instant,
  { contaminated = false, from }: Mishap = {},
): NonNullable<Bottle["suspect"]> {
  const foul = before?.contaminated === true;
  // Two troubles: what is not known of one of them is not known of both.
  const earliest =
    before === undefined || from === undefined
      ? from
      : before.from === undefined
        ? undefined
        : earlier(before.from, from);
  return {
    since: now,
    why: foul && before.why !== why ? `${before.why}; ${why}` : why,
    ...(earliest === undefined ? {} : { from: earliest }),
    ...(foul || contaminated ? { contaminated: true } : {}),
  };
}

const earlier = (one: Instant, other: Instant): Instant => (one < other ? one : other);

/** The bottle without its mark. */
export function clearSuspect(bottle: Bottle): Bottle {
  const { suspect: _, ...rest } = bottle;
  return rest;
}

/** The bottle trusted by an explicit word: no mark, and a test that failed stands overruled. */
export function trusted(bottle: Bottle): Bottle {
  const { tests } = bottle;
  const last = tests?.at(-1);
  const clear = clearSuspect(bottle);
  if (tests === undefined || last === undefined || last.passed) return clear;
  return { ...clear, tests: [...tests.slice(0, -1), { ...last, overruled: true }] };
}

/** A run whose end is not at hand is taken to have lasted this long, s (own bound, no source). */
const LONGEST_RUN = 12 * 3600;

/** When film of a run last was in one of these bottles' baths; undefined while it still is. */
function lastIn({ stages, endedAt }: Run, bottles: readonly string[]): Instant | undefined {
  const met = stages.filter(
    ({ bottle, inAt }) => bottle !== undefined && inAt !== undefined && bottles.includes(bottle),
  );
  if (met.every(({ outAt }) => outAt !== undefined)) return met.at(-1)?.outAt;
  return endedAt === undefined ? undefined : later(endedAt, LONGEST_RUN);
}

/** Every run that met a culprit, oldest first, those moved to files of their own included. */
export function touchedRuns(bench: Bench, { kind, id }: Culprit): readonly TouchedRun[] {
  const past = bench.pastRuns.flatMap(({ id: run, tank, title, plannedAt, touched }) =>
    touched === undefined
      ? []
      : [{ run, tank, title, plannedAt, touched, metUntil: later(plannedAt, LONGEST_RUN) }],
  );
  const reached = kind === "bottle" ? spread(bench, id) : [];
  const spoilt = kind === "bottle" ? bench.bottles[id]?.suspect?.from : undefined;
  const real = Object.values(bench.runs).filter(({ rehearsal }) => rehearsal === undefined);
  const here = real.map((run) => ({
    run: run.id,
    tank: run.tank,
    title: run.title,
    plannedAt: run.plannedAt,
    touched: touchedBy(run),
    metUntil: lastIn(run, reached),
  }));
  return [...past, ...here]
    .filter(({ touched }) => {
      if (kind === "bottle") return touched.bottles.some((bottle) => reached.includes(bottle));
      if (kind === "sheet") {
        const by = touched.sheet === id || touched.otherSheets?.includes(id) === true;
        return by && touched.bottles.length > 0;
      }
      return touched.thermometers.some((name) => name === id || name === "");
    })
    .map(({ metUntil, ...run }) => ({
      ...run,
      before: spoilt !== undefined && metUntil !== undefined && metUntil <= spoilt,
      unsure: kind === "thermometer" && !run.touched.thermometers.includes(id),
    }))
    .toSorted((a, b) => a.plannedAt - b.plannedAt);
}
