import { ownValue } from "../domain/own-value.ts";
import type { Unsettled } from "../language/reader.ts";

/** The choice whose word, or whose first word, was said. */
export function pick<C extends { readonly word: string }>(
  choices: readonly C[],
  said: string,
): C | undefined {
  const norm = said
    .replace(/^(the|it is|in) /, "")
    .replace(/( (it|that|please|the time|a bit))+$/, "");
  const countries: Readonly<Record<string, string>> = {
    american: "us",
    america: "us",
    "u.s": "us",
    usa: "us",
    uk: "imperial",
    british: "imperial",
    english: "imperial",
  };
  const meant = ownValue(countries, norm) ?? norm;
  const exact = choices.find(({ word }) => word.toLowerCase() === meant);
  if (exact !== undefined) return exact;
  const number = Number(meant);
  if (Number.isInteger(number) && number >= 1 && !choices.some(({ word }) => /^\d/.test(word))) {
    return choices[number - 1];
  }
  const partly = choices.filter(({ word }) => {
    const all = word.toLowerCase().split(/[\s,()]+/);
    return meant.split(/\s+/).every((piece) => all.some((one) => one.startsWith(piece)));
  });
  return partly.length === 1 ? partly[0] : undefined;
}

/** The question that settles a word with several meanings. */
export function whichOne({ unsettled, heard, choices }: Unsettled): string {
  const words = listWords(
    choices.map(({ word }) => (word === "us" ? "US" : word === "imperial" ? "Imperial" : word)),
  );
  switch (unsettled) {
    case "country":
      return `"${heard}": ${words}?`;
    case "degrees":
      return `"${heard}" degrees: ${words}?`;
    case "date":
      return `"${heard}": ${words}?`;
    default:
      return `"${heard}" of what: ${words}?`;
  }
}

export const listWords = (words: readonly string[]): string =>
  words.length < 2
    ? words.join("")
    : `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
