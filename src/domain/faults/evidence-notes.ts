import type { Evidence, RunFacts } from "./run-facts.ts";

/** Words in a run's notes that tell of something. */
export type NoteRule = { readonly kind: string; readonly ways: readonly string[] };

/** A trouble that was told at the tank, with its case. */
export type TroubleRule = { readonly what: string; readonly detail: string; readonly kind: string };

/** What people wrote down themselves, said was different, or told as trouble at the tank. */
export function noteEvidence({ run, notes, troubles }: RunFacts): readonly Evidence[] {
  const { different = "" } = run.after ?? {};
  const texts = [...run.notes.map(({ text }) => text), ...(different === "" ? [] : [different])];
  const noted = notes.flatMap(({ kind, ways }) => {
    const found = texts.find((text) => ways.some((way) => text.toLowerCase().includes(way)));
    return found === undefined ? [] : [{ kind, text: `you noted: "${found.slice(0, 80)}"` }];
  });
  const told = (run.troubles ?? []).flatMap(({ what, detail }) =>
    troubles
      .filter((rule) => rule.what === what && rule.detail === detail)
      .map(({ kind }) => ({ kind, text: `you told of trouble at the tank: ${what}. ${detail}` })),
  );
  return [...noted, ...told.filter(({ kind }) => !noted.some((note) => note.kind === kind))];
}
