import type { Bottle } from "../chemistry/bottle.ts";
import type { Instant } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
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

/** The bench with a culprit marked, and the names of bottles that are suspect with it. */
export function markSuspect(
  bench: Bench,
  { kind, id }: Culprit,
  why: string,
  now: Instant,
  contaminated = false,
): { readonly bench: Bench; readonly also: readonly string[] } {
  if (kind !== "bottle") {
    const others = (bench.suspects ?? []).filter((one) => one.kind !== kind || one.name !== id);
    return {
      bench: { ...bench, suspects: [...others, { kind, name: id, since: now, why }] },
      also: [],
    };
  }
  const first = bench.bottles[id]?.name ?? "another bottle";
  const also: string[] = [];
  let { bottles } = bench;
  for (const reached of spread(bench, id)) {
    const bottle = bottles[reached];
    if (bottle === undefined) continue;
    const known = reached !== id && bottle.suspect !== undefined;
    if (known && !contaminated) continue;
    if (reached !== id && !known) also.push(bottle.name);
    const reason = reached === id ? why : `${first} went into it, which is suspect`;
    const suspect = suspectMark(bottle, reason, now, contaminated);
    bottles = { ...bottles, [reached]: { ...bottle, suspect } };
  }
  return { bench: { ...bench, bottles }, also };
}

/** The mark a bottle gets: that something foreign is in it stays known, whatever is found later. */
export function suspectMark(
  { suspect: before }: Bottle,
  why: string,
  now: Instant,
  contaminated = false,
): NonNullable<Bottle["suspect"]> {
  const foul = before?.contaminated === true;
  return {
    since: now,
    why: foul && before.why !== why ? `${before.why}; ${why}` : why,
    ...(foul || contaminated ? { contaminated: true } : {}),
  };
}

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

/** Every run a culprit touched, oldest first, those moved to files of their own included. */
export function touchedRuns(bench: Bench, { kind, id }: Culprit): readonly TouchedRun[] {
  const past = bench.pastRuns.flatMap(({ id: run, tank, title, plannedAt, touched }) =>
    touched === undefined ? [] : [{ run, tank, title, plannedAt, touched }],
  );
  const real = Object.values(bench.runs).filter(({ rehearsal }) => rehearsal === undefined);
  const here = real.map((run) => ({
    run: run.id,
    tank: run.tank,
    title: run.title,
    plannedAt: run.plannedAt,
    touched: touchedBy(run),
  }));
  const reached = kind === "bottle" ? spread(bench, id) : [];
  return [...past, ...here]
    .filter(({ touched }) => {
      if (kind === "bottle") return touched.bottles.some((bottle) => reached.includes(bottle));
      if (kind === "sheet") {
        const by = touched.sheet === id || touched.otherSheets?.includes(id) === true;
        return by && touched.bottles.length > 0;
      }
      return touched.thermometers.some((name) => name === id || name === "");
    })
    .map((run) => ({
      ...run,
      unsure: kind === "thermometer" && !run.touched.thermometers.includes(id),
    }))
    .toSorted((a, b) => a.plannedAt - b.plannedAt);
}
