import { type Change, diff } from "../domain/changes.ts";

/** So many entries of a list, and so many changes, are handed on at once: a ms or so of work. */
const ENTRIES = 250;
const CHANGES = 50;

/**
 * What makes `after` of `before`, a little at a time: a bench of thousands of runs, handed on from
 * one thread to another all at once, would hold both up.
 */
export function* inSlices(before: unknown, after: unknown): Generator<readonly Change[]> {
  let few: Change[] = [];
  for (const change of diff(before, after)) {
    if (change.kind === "push" && change.items.length > ENTRIES) {
      // In their order: what comes before a long list goes before it.
      if (few.length > 0) yield few;
      few = [];
      for (let from = 0; from < change.items.length; from += ENTRIES) {
        yield [{ ...change, items: change.items.slice(from, from + ENTRIES) }];
      }
      continue;
    }
    few.push(change);
    if (few.length < CHANGES) continue;
    yield few;
    few = [];
  }
  if (few.length > 0) yield few;
}
