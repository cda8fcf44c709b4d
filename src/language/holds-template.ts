import { type Node, parseTemplate } from "./template.ts";

/**
 * Does a sentence hold these words somewhere? `way` is written as a sentence template is;
 * `{word}` stands for any one word.
 *
 * @throws when the template is malformed: that is a bug in a data file, found at start
 */
export const holdsTemplate = (way: string): Holds => searched(way, held);

/** The same for a whole sentence. */
export const isTemplate = (way: string): Holds => searched(way, whole);

type Holds = (words: readonly string[]) => boolean;

/**
 * Of hundreds of ways a sentence is searched for those alone of which it has a word that they
 * cannot do without; and only then is there an expression, which takes memory of its own.
 */
function searched(way: string, expressionOf: (way: string) => string): Holds {
  const needed = neededOf(parseTemplate(way).node);
  const source = expressionOf(way);
  let pattern: RegExp | undefined;
  return (words) => {
    if (needed !== undefined && !words.some((word) => needed.includes(word))) return false;
    pattern ??= new RegExp(source);
    return pattern.test(`${words.join(" ")} `);
  };
}

/** Words of which one at least stands in whatever this reads; undefined where there are none. */
function neededOf(node: Node): readonly string[] | undefined {
  switch (node.kind) {
    case "word":
      return [node.word];
    case "choice": {
      const branches = node.nodes.map(neededOf);
      return branches.includes(undefined) ? undefined : branches.flatMap((words) => words ?? []);
    }
    case "sequence":
      return node.nodes
        .flatMap((one) => {
          const words = neededOf(one);
          return words === undefined ? [] : [words];
        })
        .toSorted((one, other) => one.length - other.length)[0];
    default:
      return undefined;
  }
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
