import type { Run } from "../session/run.ts";
import { dayEnd, dayStart } from "../timing/day-bounds.ts";
import type { Meant } from "./name-meant.ts";
import { factsOf, isBath } from "./run-facts.ts";
import type { StageFault } from "./stage-faults.ts";
import type { Clause } from "./wanted.ts";

/** The names that were said, each with everything it may mean. */
export type Names = ReadonlyMap<string, readonly Meant[]>;

/** Runs for which every clause holds, in the order given. */
export function findRuns(
  runs: readonly Run[],
  clauses: readonly Clause[],
  names: Names,
  zone: string,
): readonly Run[] {
  return runs.filter(allOf(clauses.map((clause) => testOf(clause, names, zone))));
}

/** Made once for thousands of runs, so that none of them costs a function of its own. */
const allOf = (tests: readonly Test[]): Test =>
  tests.reduce<Test>(
    (before, test) => (run) => before(run) && test(run),
    () => true,
  );

const anyOf = (tests: readonly Test[]): Test =>
  tests.reduce<Test>(
    (before, test) => (run) => before(run) || test(run),
    () => false,
  );

type Test = (run: Run) => boolean;

function testOf(clause: Clause, names: Names, zone: string): Test {
  switch (clause.kind) {
    case "push": {
      const { stops } = clause;
      if (stops === "push") return ({ push = 0 }) => push > 0;
      if (stops === "pull") return ({ push = 0 }) => push < 0;
      return ({ push = 0 }) => push === stops;
    }
    case "film":
      return ({ film }) =>
        film.some(
          ({ format, count }) =>
            (format === clause.format || format.startsWith(`${clause.format}-`)) &&
            (clause.count === undefined || clause.count === count),
        );
    case "process":
      return (run) => factsOf(run).mark === clause.mark;
    case "name": {
      return anyOf((names.get(clause.text) ?? []).map(({ had }) => had));
    }
    case "dates": {
      const from = clause.from === undefined ? -Infinity : dayStart(clause.from, zone);
      const to = clause.to === undefined ? Infinity : dayEnd(clause.to, zone);
      return ({ plannedAt }) => plannedAt >= from && plannedAt < to;
    }
    case "fault":
      return (run) => factsOf(run).faults.some((fault) => isFault(fault, clause));
    case "clean":
      return (run) => factsOf(run).faults.length === 0;
    case "stopped":
      return ({ ending }) => ending === "stopped";
    case "rehearsals":
      return ({ rehearsal }) => rehearsal !== undefined;
  }
}

export const isFault = (
  found: StageFault,
  { fault, bath }: Extract<Clause, { readonly kind: "fault" }>,
): boolean =>
  (fault === "any" || found.fault === fault) && (bath === undefined || isBath(found, bath));

/** On a date of the bench. */
export function runsOn(runs: readonly Run[], iso: string, zone: string): readonly Run[] {
  const on = testOf({ kind: "dates", from: iso, to: iso }, new Map(), zone);
  return runs.filter(on);
}
