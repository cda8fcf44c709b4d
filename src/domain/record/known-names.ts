import type { Bench } from "../session/bench.ts";
import { peopleOf } from "../session/people-of.ts";

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
  for (const { touched } of bench.pastRuns) {
    for (const name of touched?.people ?? []) names.add(name);
  }
  for (const { from, to } of bench.handovers ?? []) names.add(from).add(to);
  for (const { by } of Object.values(bench.inUse ?? {})) names.add(by);
  names.delete("");
  return [...names];
}

/** Where its bottles stand, in their users' words. */
export const knownPlaces = (bench: Bench): readonly string[] => [
  ...new Set(Object.values(bench.bottles).flatMap(({ place }) => place ?? [])),
];
