import { peopleOf } from "../log/run-facts.ts";
import type { Bench } from "../session/bench.ts";

/** Everybody a bench has heard of by name, so that no name slips out in a label. */
export function knownPeople(bench: Bench): readonly string[] {
  const names = new Set<string>();
  for (const { by } of Object.values(bench.bottles)) names.add(by);
  for (const { by } of Object.values(bench.rolls)) if (by !== undefined) names.add(by);
  for (const { owner } of Object.values(bench.reminders)) names.add(owner);
  for (const { by } of bench.notes) names.add(by);
  for (const run of Object.values(bench.runs)) {
    for (const name of peopleOf(run)) names.add(name);
  }
  names.delete("");
  return [...names];
}

/** Where its bottles stand, in their users' words. */
export const knownPlaces = (bench: Bench): readonly string[] => [
  ...new Set(Object.values(bench.bottles).flatMap(({ place }) => place ?? [])),
];
