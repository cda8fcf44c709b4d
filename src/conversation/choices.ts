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
  return partly.length === 1 ? partly[0] : byPlace(choices, norm);
}

const ordinals = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
const cardinals = ["one", "two", "three", "four", "five", "six", "seven", "eight"];

/** "the second", "last one", "number two"; never where a choice has that word or figure in it. */
function byPlace<C extends { readonly word: string }>(
  choices: readonly C[],
  said: string,
): C | undefined {
  const called = /^(?:(?:number|option|choice) (\w+)|(\w+)(?: (?:one|choice|option))?)$/.exec(said);
  if (called === null || choices.some(({ word }) => word === "yes")) return undefined;
  const [, counted, ordered = ""] = called;
  if (ordered === "last") return choices.at(-1);
  const written = /^(\d)(?:st|nd|rd|th)$/.exec(ordered)?.[1] ?? counted;
  const index =
    counted === undefined && written === undefined
      ? ordinals.indexOf(ordered)
      : written !== undefined && /^\d$/.test(written)
        ? Number(written) - 1
        : cardinals.indexOf(written ?? "");
  const names = [ordinals[index], cardinals[index], String(index + 1)];
  const taken = choices.some(({ word }) =>
    word
      .toLowerCase()
      .split(/[\s,()]+/)
      .some((piece) => names.includes(piece)),
  );
  return index < 0 || taken ? undefined : choices[index];
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
