import type { Node } from "../../language/template.ts";

const nothing: Node = { kind: "sequence", nodes: [] };

/**
 * What of a template can be spoken: a part with a slot that cannot is left out where it is optional
 * or one of several. Undefined when the template needs such a slot.
 */
export function speakable(node: Node, spoken: (slot: string) => boolean): Node | undefined {
  switch (node.kind) {
    case "word":
      return isSaid(node.word) ? node : undefined;
    case "slot":
      return spoken(node.slot) ? node : undefined;
    case "maybe": {
      const inner = speakable(node.node, spoken);
      return inner === undefined ? nothing : { kind: "maybe", node: inner };
    }
    case "sequence": {
      const nodes = node.nodes.map((part) => speakable(part, spoken));
      const whole = nodes.filter((part) => part !== undefined);
      return whole.length < nodes.length ? undefined : { kind: "sequence", nodes: whole };
    }
    default: {
      const nodes = node.nodes
        .map((part) => speakable(part, spoken))
        .filter((part) => part !== undefined);
      if (nodes.length > 0) return { kind: node.kind, nodes };
      return node.kind === "anyOrder" ? nothing : undefined;
    }
  }
}

/** Signs, and short forms that only fingers use. */
const isSaid = (word: string): boolean => /^[a-z][a-z'-]*$/.test(word) && !typed.has(word);
const typed: ReadonlySet<string> = new Set(["ml", "c", "f", "temp", "fd"]);
