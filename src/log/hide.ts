/** Something that is never shown, and what stands in its place. */
export type Hidden = { readonly text: string; readonly as: string };

/** Shorter than this it would hide ordinary words. */
const SHORTEST = 4;
/** Tokens of interactions and the like: no word of ours is as long. */
const LONG = /[\w-]{60,}/g;

/**
 * Takes out what must never be shown, should it ever get into a sentence: the last of several
 * walls, not the only one.
 */
export function hide(sentence: string, hidden: readonly Hidden[]): string {
  return hidden
    .filter(({ text }) => text.length >= SHORTEST)
    .toSorted((one, other) => other.text.length - one.text.length)
    .reduce((told, { text, as }) => told.replaceAll(text, as), sentence)
    .replace(LONG, "[long]");
}
