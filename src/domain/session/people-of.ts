import type { Run } from "./run.ts";

/** Everybody whose hands or words are in a run, as the channel names them; each once. */
export const peopleOf = ({ by, stages, notes, people = [] }: Run): readonly string[] => [
  ...new Set(
    [
      by,
      ...stages.flatMap(({ inBy, outBy }) => [inBy, outBy]),
      ...people.map(({ name }) => name),
      ...notes.map((note) => note.by),
    ].filter((name) => name !== undefined),
  ),
];
