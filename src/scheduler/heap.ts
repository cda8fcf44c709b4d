import type { Instant } from "../domain/units/quantity.ts";

type Due<K> = { readonly key: K; readonly at: Instant };

/** Keys by instant, the earliest first; keys with the same instant in the order they were set. */
export type Heap<K = string> = {
  /** The earliest; undefined when empty. */
  first(): Due<K> | undefined;
  /** Sets the instant of a key, new or known. */
  set(key: K, at: Instant): void;
  remove(key: K): void;
  size(): number;
};

type Node<K> = Due<K> & { readonly turn: number };

/** A binary heap that remembers where each key sits, so that all changes take logarithmic time. */
export function createHeap<K = string>(): Heap<K> {
  const nodes: Node<K>[] = [];
  const places = new Map<K, number>();
  let turns = 0;

  const before = (one: Node<K>, other: Node<K>): boolean =>
    one.at < other.at || (one.at === other.at && one.turn < other.turn);

  const put = (node: Node<K>, place: number): void => {
    nodes[place] = node;
    places.set(node.key, place);
  };

  const rise = (node: Node<K>, from: number): number => {
    let place = from;
    while (place > 0) {
      const above = (place - 1) >> 1;
      const parent = nodes[above];
      if (parent === undefined || !before(node, parent)) break;
      put(parent, place);
      place = above;
    }
    put(node, place);
    return place;
  };

  const sink = (node: Node<K>, from: number): void => {
    let place = from;
    for (;;) {
      const left = 2 * place + 1;
      const [one, other] = [nodes[left], nodes[left + 1]];
      if (one === undefined) break;
      const right = other !== undefined && before(other, one);
      const child = right ? other : one;
      if (!before(child, node)) break;
      put(child, place);
      place = right ? left + 1 : left;
    }
    put(node, place);
  };

  const settle = (node: Node<K>, place: number): void => {
    if (rise(node, place) === place) sink(node, place);
  };

  return {
    first: () => nodes[0],
    set(key, at) {
      turns += 1;
      settle({ key, at, turn: turns }, places.get(key) ?? nodes.length);
    },
    remove(key) {
      const place = places.get(key);
      const last = nodes.at(-1);
      if (place === undefined || last === undefined) return;
      nodes.pop();
      places.delete(key);
      if (last.key !== key) settle(last, place);
    },
    size: () => nodes.length,
  };
}
