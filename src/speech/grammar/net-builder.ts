import type { Node } from "../../language/template.ts";
import type { NetArc, PlainNet, WordNet } from "./word-net.ts";

/** Lays what stands in a slot from a state on; gives the state behind it. */
export type LaySlot = (slot: string, from: number) => number;

/** Collects sentences into one net. State 0 is the start. */
export class NetBuilder {
  #states = 1;
  readonly #arcs: NetArc[] = [];
  readonly #ends = new Map<number, number>();

  state(): number {
    this.#states += 1;
    return this.#states - 1;
  }

  arc(from: number, to: number, word?: string): void {
    this.#arcs.push({ from, to, word });
  }

  /** A sentence may stop at this state; `usual`: how usual it is, above 0 and up to 1. */
  end(state: number, usual: number): void {
    this.#ends.set(state, Math.max(usual, this.#ends.get(state) ?? 0));
  }

  /** Copies a whole net behind a state; gives the state behind it. */
  insert({ next, ends }: PlainNet, from: number): number {
    const first = this.#states;
    this.#states += next.length + 1;
    const behind = this.#states - 1;
    this.arc(from, first);
    next.forEach((words, at) => {
      for (const [word, to] of words) this.arc(first + at, first + to, word);
    });
    for (const end of ends.keys()) this.arc(first + end, behind);
    return behind;
  }

  net(): WordNet {
    return { states: this.#states, arcs: this.#arcs, ends: this.#ends };
  }

  /** Lays a template from a state on; gives the state behind it. */
  lay(node: Node, from: number, slot: LaySlot): number {
    switch (node.kind) {
      case "word": {
        const to = this.state();
        this.arc(from, to, node.word);
        return to;
      }
      case "slot":
        return slot(node.slot, from);
      case "sequence":
        return node.nodes.reduce((at, part) => this.lay(part, at, slot), from);
      case "choice": {
        const to = this.state();
        for (const part of node.nodes) this.arc(this.lay(part, from, slot), to);
        return to;
      }
      case "maybe": {
        const to = this.lay(node.node, from, slot);
        const behind = this.state();
        this.arc(to, behind);
        this.arc(from, behind);
        return behind;
      }
      case "anyOrder": {
        // A loop, which allows a part twice: the parser behind it does not.
        const hub = this.state();
        this.arc(from, hub);
        for (const part of node.nodes) this.arc(this.lay(part, hub, slot), hub);
        const to = this.state();
        this.arc(hub, to);
        return to;
      }
    }
  }
}
