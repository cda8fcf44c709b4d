/**
 * Sentence templates, as command files write them:
 *
 *   how much [water] for {volume} [of] {solution}
 *
 * `[x]` may be left out, `(a|b)` is a choice, `{slot}` is read by a slot reader, and
 * `<a / b / c>` is any of these, in any order, each at most once.
 */
export type Node =
  | { readonly kind: "word"; readonly word: string }
  | { readonly kind: "slot"; readonly slot: string }
  | { readonly kind: "sequence"; readonly nodes: readonly Node[] }
  | { readonly kind: "choice"; readonly nodes: readonly Node[] }
  | { readonly kind: "maybe"; readonly node: Node }
  | { readonly kind: "anyOrder"; readonly nodes: readonly Node[] };

export type Template = {
  readonly text: string;
  readonly node: Node;
  readonly slots: readonly string[];
  /** From each of these sets a sentence must hold a word, or the template need not be tried. */
  readonly required: readonly (readonly string[])[];
};

const TOKEN = /\{[a-zA-Z]+\}|[[\]()|<>/]|[^\s[\]()|<>/{}]+/g;

/** @throws when a template is malformed: that is a bug in a command file, found at start */
export function parseTemplate(text: string): Template {
  const tokens = text.match(TOKEN) ?? [];
  // A brace left over is a slot misspelt: its name would pass for a word.
  if (tokens.join("") !== text.replace(/\s/g, "")) {
    throw new Error(`template has a slot that is none: ${text}`);
  }
  let at = 0;

  const sequence = (closers: readonly string[]): Node => {
    const nodes: Node[] = [];
    while (at < tokens.length) {
      const token = tokens[at] ?? "";
      if (closers.includes(token)) break;
      at += 1;
      nodes.push(item(token));
    }
    return nodes.length === 1 && nodes[0] !== undefined ? nodes[0] : { kind: "sequence", nodes };
  };

  const list = (separator: string, closer: string): readonly Node[] => {
    const nodes = [sequence([separator, closer])];
    while (tokens[at] === separator) {
      at += 1;
      nodes.push(sequence([separator, closer]));
    }
    close(closer);
    return nodes;
  };

  const close = (closer: string): void => {
    if (tokens[at] !== closer) throw new Error(`template lacks "${closer}": ${text}`);
    at += 1;
  };

  const item = (token: string): Node => {
    if (token === "[") {
      const nodes = list("|", "]");
      const only = nodes[0];
      return {
        kind: "maybe",
        node: nodes.length === 1 && only !== undefined ? only : { kind: "choice", nodes },
      };
    }
    if (token === "(") return { kind: "choice", nodes: list("|", ")") };
    if (token === "<") return { kind: "anyOrder", nodes: list("/", ">") };
    if (token.startsWith("{")) return { kind: "slot", slot: token.slice(1, -1) };
    if (/^[\])|>/]$/.test(token)) throw new Error(`template has a stray "${token}": ${text}`);
    return { kind: "word", word: token };
  };

  const node = sequence([]);
  return { text, node, slots: slotsOf(node), required: requiredWords(node) };
}

function slotsOf(node: Node): readonly string[] {
  switch (node.kind) {
    case "word":
      return [];
    case "slot":
      return [node.slot];
    case "maybe":
      return slotsOf(node.node);
    default:
      return [...new Set(node.nodes.flatMap(slotsOf))];
  }
}

/** The words every sentence of this template holds, as sets of alternatives. */
function requiredWords(node: Node): readonly (readonly string[])[] {
  switch (node.kind) {
    case "word":
      return [[node.word]];
    case "sequence":
      return node.nodes.flatMap(requiredWords);
    case "choice": {
      const firsts = node.nodes.map((option) => requiredWords(option)[0]);
      if (firsts.some((first) => first === undefined)) return [];
      return [firsts.flatMap((first) => first ?? [])];
    }
    default:
      return [];
  }
}

/** Every word a template can hold, for the vocabulary that misspellings are compared with. */
export function wordsOf(node: Node): readonly string[] {
  switch (node.kind) {
    case "word":
      return [node.word];
    case "slot":
      return [];
    case "maybe":
      return wordsOf(node.node);
    default:
      return node.nodes.flatMap(wordsOf);
  }
}
