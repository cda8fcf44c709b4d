import { findRuns, type Names } from "../domain/log/find-runs.ts";
import { nameMeant } from "../domain/log/name-meant.ts";
import type { Clause } from "../domain/log/wanted.ts";
import { oncePer } from "../domain/once-per.ts";
import type { Bench } from "../domain/session/bench.ts";
import { allRuns } from "../domain/session/past.ts";
import type { Run } from "../domain/session/run.ts";
import { oneBreath, type Reply, refuse } from "../reply/reply.ts";
import type { Handling } from "./define-command.ts";
import { filterWords } from "./filter-words.ts";

export type Searched = {
  /** Those wanted, oldest first. */
  readonly runs: readonly Run[];
  /** How many there are in all, wanted or not. */
  readonly all: number;
  /** What was understood, in words; empty where nothing was asked of them. */
  readonly words: string;
};

/** Film or water really went into a bath, and it was not taken back. */
const happened = (run: Run): boolean =>
  run.nothingIn !== true && run.stages.some(({ inAt }) => inAt !== undefined);

const happenedIn = oncePer((runs: readonly Run[]): readonly Run[] => runs.filter(happened));

/**
 * The runs of a bench's whole life that a search asks for; a refusal where it names something no
 * run had to do with. Rehearsals are left out unless they are asked for, and so are runs in which
 * nothing was ever poured.
 */
export function searchRuns(
  { bench, past, listening }: Handling,
  clauses: readonly Clause[],
): Searched | { readonly reply: Reply } {
  const rehearsed = clauses.some(({ kind }) => kind === "rehearsals");
  const stopped = clauses.some(({ kind }) => kind === "stopped");
  const known = rehearsed ? rehearsals(bench) : allRuns(bench, past);
  const runs = stopped ? known : happenedIn(known);
  const names = new Map<string, Names extends ReadonlyMap<string, infer M> ? M : never>();
  for (const clause of clauses) {
    if (clause.kind !== "name") continue;
    const meant = nameMeant(bench, runs, listening.names.sheet, clause.text);
    if (meant.length === 0) return { reply: noSuchName(clause.text, runs.length) };
    names.set(clause.text, meant);
  }
  return {
    runs: findRuns(runs, clauses, names, bench.zone),
    all: runs.length,
    words: filterWords(clauses, names),
  };
}

const rehearsals = (bench: Bench): readonly Run[] =>
  Object.values(bench.runs)
    .filter(({ rehearsal }) => rehearsal !== undefined)
    .toSorted((a, b) => a.plannedAt - b.plannedAt);

const noSuchName = (text: string, runs: number): Reply =>
  refuse(
    "no-such-name",
    `I find no person, bottle, tank, thermometer, sheet or roll called "${text}" in ${countRuns(runs)}.`,
    { say: oneBreath(`I find nothing called ${text} in the log.`), facts: { asked: text } },
  );

export const countRuns = (count: number): string => `${count} run${count === 1 ? "" : "s"}`;
