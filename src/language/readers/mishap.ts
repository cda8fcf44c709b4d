import { rescues } from "../../data/rescues.ts";
import { isTemplate } from "../holds-template.ts";
import type { Reading } from "../reader.ts";
import { skip } from "./phrases.ts";

/** What went wrong at the tank: the id of its rescue, and which case of it, where that was said. */
export type Mishap = { readonly what: string; readonly detail?: string | undefined };

const told = rescues.flatMap(({ id, ways }) =>
  ways.map(({ says, detail }) => ({
    tells: isTemplate(says),
    value: detail === undefined ? { what: id } : { what: id, detail },
  })),
);

const cries: ReadonlySet<string> = new Set(["oops", "oh", "damn", "help", "shit"]);

/** How many words at the end only say that nobody meant it. */
const excuse = (words: readonly string[]): number =>
  /(^| )by (accident|mistake)$/.test(words.join(" ")) ? 2 : words.at(-1) === "accidentally" ? 1 : 0;

/** The slot `{mishap}`: told in people's own words, to the end of the sentence. */
export function readMishap(words: readonly string[], from: number): readonly Reading<Mishap>[] {
  const rest = words.slice(skip(words, from, cries), words.length - excuse(words));
  const found = told.find(({ tells }) => tells(rest));
  return found === undefined ? [] : [{ value: found.value, next: words.length }];
}
