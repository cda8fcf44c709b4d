import type { Listening, Reading, SlotReader } from "./reader.ts";
import type { Node, Template } from "./template.ts";
import { asTyped, type Words } from "./words.ts";

export type Match = {
  readonly fields: Readonly<Record<string, unknown>>;
  /** Words of the sentence that the template names itself. */
  readonly literals: number;
  /** Words that went into free text. */
  readonly loose: number;
};

/** How slots of a template are read: by field name. */
export type SlotReading = {
  readonly read: SlotReader;
  /** Take the words as typed, not as read. */
  readonly asTyped: boolean;
};

/** Words that may stand between the words of a template and mean nothing there. */
const filler = new Set(["the", "my", "our", "some", "please", "just", "now", "then", "of"]);

type State = { readonly at: number; readonly literals: number; readonly loose: number };
type Binding = {
  readonly name: string;
  readonly value: unknown;
  readonly rest: Binding | undefined;
};
type Go = (state: State, bound: Binding | undefined) => Match | undefined;

/** Gives up on sentences built to make matching slow; a real one needs far fewer steps. */
const MOST_STEPS = 20_000;

/** What a slot reads here or, where it reads nothing, behind the words that mean nothing. */
function readSlot(
  { read, asTyped: free }: SlotReading,
  words: readonly string[],
  at: number,
  listening: Listening,
): { readonly from: number; readonly readings: readonly Reading<unknown>[] } {
  for (let from = at; from < words.length; from += 1) {
    const readings = read(words, from, listening);
    if (readings.length > 0 || free || !filler.has(words[from] ?? "")) return { from, readings };
  }
  return { from: at, readings: [] };
}

/**
 * Reads a whole sentence with one template. Slots take their longest reading first; the first way
 * through that uses every word wins.
 */
export function matchTemplate(
  template: Template,
  slots: Readonly<Record<string, SlotReading>>,
  sentence: Words,
  present: ReadonlySet<string>,
  listening: Listening,
): Match | undefined {
  for (const set of template.required) {
    if (!set.some((word) => present.has(word))) return undefined;
  }
  const { words } = sentence;
  let steps = 0;

  const node = (
    what: Node,
    state: State,
    bound: Binding | undefined,
    go: Go,
  ): Match | undefined => {
    steps += 1;
    if (steps > MOST_STEPS) return undefined;
    switch (what.kind) {
      case "word": {
        for (let at = state.at; at < words.length; at += 1) {
          const word = words[at] ?? "";
          if (word === what.word) {
            return go({ at: at + 1, literals: state.literals + 1, loose: state.loose }, bound);
          }
          if (!filler.has(word)) return undefined;
        }
        return undefined;
      }
      case "slot": {
        const slot = slots[what.slot];
        if (slot === undefined || state.at >= words.length) return undefined;
        const { from, readings } = readSlot(slot, words, state.at, listening);
        for (const reading of readings) {
          const used = reading.next - from;
          if (used <= 0) continue;
          const value = slot.asTyped ? asTyped(sentence, from, reading.next) : reading.value;
          const found = go(
            {
              at: reading.next,
              literals: state.literals,
              loose: state.loose + (slot.asTyped ? used : 0),
            },
            { name: what.slot, value, rest: bound },
          );
          if (found !== undefined) return found;
        }
        return undefined;
      }
      case "sequence":
        return sequence(what.nodes, 0, state, bound, go);
      case "choice":
        for (const option of what.nodes) {
          const found = node(option, state, bound, go);
          if (found !== undefined) return found;
        }
        return undefined;
      case "maybe":
        return node(what.node, state, bound, go) ?? go(state, bound);
      case "anyOrder":
        return anyOrder(what.nodes, state, bound, go);
    }
  };

  const sequence = (
    nodes: readonly Node[],
    index: number,
    state: State,
    bound: Binding | undefined,
    go: Go,
  ): Match | undefined => {
    const first = nodes[index];
    if (first === undefined) return go(state, bound);
    return node(first, state, bound, (next, more) => sequence(nodes, index + 1, next, more, go));
  };

  const anyOrder = (
    nodes: readonly Node[],
    state: State,
    bound: Binding | undefined,
    go: Go,
  ): Match | undefined => {
    for (const option of nodes) {
      const others = nodes.filter((other) => other !== option);
      const found = node(option, state, bound, (next, more) =>
        next.at === state.at ? undefined : anyOrder(others, next, more, go),
      );
      if (found !== undefined) return found;
    }
    return go(state, bound);
  };

  return node(template.node, { at: 0, literals: 0, loose: 0 }, undefined, (state, bound) => {
    for (let at = state.at; at < words.length; at += 1) {
      if (!filler.has(words[at] ?? "")) return undefined;
    }
    const fields: Record<string, unknown> = {};
    for (let b = bound; b !== undefined; b = b.rest) {
      if (!(b.name in fields)) fields[b.name] = b.value;
    }
    return { fields, literals: state.literals, loose: state.loose };
  });
}
