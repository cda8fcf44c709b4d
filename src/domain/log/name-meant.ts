import { sharedName } from "../film/roll-names.ts";
import { oncePer } from "../once-per.ts";
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
    if (name === undefined || doneIn === undefined) continue;
    const known = name.toLowerCase();
    if (known === said || sharedName(known) === said) {
      found.push({ kind: "roll", name: said, had: ({ id }) => id === doneIn });
    }
  }
  const { tanks, thermometers, people } = namesIn(runs);
  const tank = tanks.get(said);
  if (tank !== undefined) {
    found.push({ kind: "tank", name: tank, had: (run) => factsOf(run).tank === said });
  }
  if (thermometers.has(said)) {
    const had = (run: Run): boolean => factsOf(run).thermometers.has(said);
    found.push({ kind: "thermometer", name: `the ${said} thermometer`, had });
  }
  const mixed = Object.values(bench.bottles).filter(({ by }) => by.toLowerCase() === said);
  const ids = new Set(mixed.map(({ id }) => id));
  const took = (run: Run): boolean => {
    const { people: by, bottles } = factsOf(run);
    return by.has(said) || !bottles.isDisjointFrom(ids);
  };
  const person = people.get(said) ?? mixed[0]?.by;
  if (person !== undefined && (people.has(said) || runs.some(took))) {
    found.push({ kind: "person", name: person, had: took });
  }
  return found;
}

/** Every name the runs know, as it is written, by its small letters. */
const namesIn = oncePer((runs: readonly Run[]) => {
  const tanks = new Map<string, string>();
  const thermometers = new Set<string>();
  const people = new Map<string, string>();
  for (const run of runs) {
    const facts = factsOf(run);
    tanks.set(facts.tank, run.tank);
    for (const name of facts.thermometers) thermometers.add(name);
    for (const name of peopleOf(run)) people.set(name.toLowerCase(), name);
  }
  return { tanks, thermometers, people };
});

/** Without the noun that says what kind of thing it is. */
const bare = (text: string): string =>
  text
    .toLowerCase()
    .replace(/^(the|my|our) /, "")
    .replace(/^(tank|bottle|sheet|roll|rolls) /, "")
    .replace(/ (tank|bottle|thermometer)$/, "");
