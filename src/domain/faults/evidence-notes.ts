import type { Evidence, RunFacts } from "./run-facts.ts";

/** Words in a run's notes that tell of something. */
export type NoteRule = { readonly kind: string; readonly ways: readonly string[] };

/** What people wrote down themselves, in their own words. */
export function noteEvidence({ run, notes }: RunFacts): readonly Evidence[] {
  return notes.flatMap(({ kind, ways }) => {
    const found = run.notes.find(({ text }) => {
      const said = text.toLowerCase();
      return ways.some((way) => said.includes(way));
    });
    return found === undefined ? [] : [{ kind, text: `you noted: "${found.text.slice(0, 80)}"` }];
  });
}
