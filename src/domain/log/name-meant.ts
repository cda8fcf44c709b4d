import type { Bench } from "../session/bench.ts";
import { peopleOf } from "../session/people-of.ts";
import type { Run } from "../session/run.ts";
import { factsOf } from "./run-facts.ts";

/** What a name said in a search belongs to, and whether a run had to do with it. */
export type Meant = {
  readonly kind: "person" | "bottle" | "tank" | "thermometer" | "sheet" | "roll";
  /** As it is written on this bench. */
  readonly name: string;
  had(run: Run): boolean;
};

/** Ids of sheets by every name they go by, in lower case. */
export type SheetIds = ReadonlyMap<string, string>;

/**
 * Everything of that name that the runs know. Several things may share one: a run is wanted when
 * it had to do with any of them.
 */
export function nameMeant(
  bench: Bench,
  runs: readonly Run[],
  sheets: SheetIds,
  text: string,
): readonly Meant[] {
  const said = bare(text);
  const found: Meant[] = [];
  for (const { id, name, mark } of Object.values(bench.bottles)) {
    if (name.toLowerCase() === said || `${name} the ${mark}`.toLowerCase() === said) {
      found.push({ kind: "bottle", name, had: (run) => factsOf(run).bottles.has(id) });
    }
  }
  const sheet = sheets.get(said) ?? sheets.get(said.replace(/ sheet$/, ""));
  if (sheet !== undefined) {
    found.push({ kind: "sheet", name: text, had: (run) => factsOf(run).sheets.has(sheet) });
  }
  for (const { name, doneIn } of Object.values(bench.rolls)) {
    if (name?.toLowerCase() === said && doneIn !== undefined) {
      found.push({ kind: "roll", name: said, had: ({ id }) => id === doneIn });
    }
  }
  const tank = runs.find((run) => factsOf(run).tank === said)?.tank;
  if (tank !== undefined) {
    found.push({ kind: "tank", name: tank, had: (run) => factsOf(run).tank === said });
  }
  if (runs.some((run) => factsOf(run).thermometers.has(said))) {
    const had = (run: Run): boolean => factsOf(run).thermometers.has(said);
    found.push({ kind: "thermometer", name: `the ${said} thermometer`, had });
  }
  const mixed = new Set(
    Object.values(bench.bottles).flatMap(({ id, by }) => (by.toLowerCase() === said ? [id] : [])),
  );
  const took = (run: Run): boolean =>
    factsOf(run).people.has(said) || [...factsOf(run).bottles].some((id) => mixed.has(id));
  const person = runs.find(took);
  if (person !== undefined) {
    const written = [...peopleOf(person), ...Object.values(bench.bottles).map(({ by }) => by)];
    const name = written.find((one) => one.toLowerCase() === said) ?? text;
    found.push({ kind: "person", name, had: took });
  }
  return found;
}

/** Without the noun that says what kind of thing it is. */
const bare = (text: string): string =>
  text
    .toLowerCase()
    .replace(/^(the|my|our) /, "")
    .replace(/^(tank|bottle|sheet|roll|rolls) /, "")
    .replace(/ (tank|bottle|thermometer)$/, "");
