import { type Node, parseTemplate } from "./template.ts";

/**
 * Does a sentence hold these words somewhere? `way` is written as a sentence template is;
 * `{word}` stands for any one word.
 *
 * @throws when the template is malformed: that is a bug in a data file, found at start
 */
export function holdsTemplate(way: string): (words: readonly string[]) => boolean {
  const pattern = new RegExp(held(way));
  return (words) => pattern.test(`${words.join(" ")} `);
}

/** The same for a whole sentence. */
export function isTemplate(way: string): (words: readonly string[]) => boolean {
  const pattern = new RegExp(whole(way));
  return (words) => pattern.test(`${words.join(" ")} `);
}

/** What such a sentence is searched with, as the text of an expression. */
export const held = (way: string): string => `(?:^| )${patternOf(parseTemplate(way).node)}`;
export const whole = (way: string): string => `^${patternOf(parseTemplate(way).node)}$`;

/** Every word carries the space behind it. */
function patternOf(node: Node): string {
  switch (node.kind) {
    case "word":
      return `${RegExp.escape(node.word)} `;
    case "slot":
      return "[^ ]+ ";
    case "sequence":
      return node.nodes.map(patternOf).join("");
    case "choice":
      return `(?:${node.nodes.map(patternOf).join("|")})`;
    case "maybe":
      return `(?:${patternOf(node.node)})?`;
    case "anyOrder":
      throw new Error("words in any order have no place here");
  }
}
