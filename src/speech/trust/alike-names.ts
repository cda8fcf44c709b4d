import { distance } from "fastest-levenshtein";
import { type Bench, liveBottles } from "../../domain/session/bench.ts";
import { PHONES } from "../grammar/fsg-text.ts";
import { pronounce } from "../grammar/pronounce.ts";

/** Names whose sounds differ by no more than about a third of the longer one are taken for each other. */
const ALIKE = 0.34;

/** Is one of these words the name of a bottle that sounds like another bottle's? */
export function alikeNames(words: readonly string[], bench: Bench): boolean {
  const names = liveBottles(bench).map(({ name }) => name.toLowerCase());
  const said = names.filter((name) => ` ${words.join(" ")} `.includes(` ${name} `));
  return said.some((name) => names.some((other) => other !== name && soundsLike(name, other)));
}

/** Compared sound by sound. */
export function soundsLike(one: string, other: string): boolean {
  const [a, b] = [phones(one), phones(other)];
  return distance(a, b) <= ALIKE * Math.max(a.length, b.length);
}

/** One character a phone, so that a distance counts phones. */
const phones = (name: string): string =>
  name
    .split(" ")
    .flatMap((word) => (pronounce(word) ?? "").split(" "))
    .map((phone) => String.fromCodePoint(0x100 + PHONES.indexOf(phone)))
    .join("");
