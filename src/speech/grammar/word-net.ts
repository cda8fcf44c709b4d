/**
 * A net of words: from state to state along words, or along nothing (`word` undefined). State 0 is
 * the start.
 */
export type WordNet = {
  readonly states: number;
  readonly arcs: readonly NetArc[];
  /** States a sentence may stop at, each with how usual its sentences are, above 0 and up to 1. */
  readonly ends: ReadonlyMap<number, number>;
};
export type NetArc = {
  readonly from: number;
  readonly to: number;
  readonly word: string | undefined;
};

/** A net without empty arcs in which no word leads to two states. */
export type PlainNet = {
  /** By state: where each word leads. */
  readonly next: readonly ReadonlyMap<string, number>[];
  readonly ends: ReadonlyMap<number, number>;
};

/** The same sentences with every state's words told apart and equal states made one. */
export const compact = (net: WordNet): PlainNet => minimise(determinise(net));

/** Every step decided by its word alone: a state is a set of states of the net before. */
function determinise({ states, arcs, ends }: WordNet): PlainNet {
  const empty: number[][] = Array.from({ length: states }, () => []);
  const spoken: [string, number][][] = Array.from({ length: states }, () => []);
  for (const { from, to, word } of arcs) {
    if (word === undefined) empty[from]?.push(to);
    else spoken[from]?.push([word, to]);
  }
  const closure = (seeds: Iterable<number>): number[] => {
    const seen = new Set(seeds);
    const open = [...seen];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const to of empty[at] ?? []) {
        if (!seen.has(to)) {
          seen.add(to);
          open.push(to);
        }
      }
    }
    return [...seen].sort((a, b) => a - b);
  };
  const sets = [closure([0])];
  const known = new Map([[sets[0]?.join() ?? "", 0]]);
  const next: Map<string, number>[] = [];
  const finals = new Map<number, number>();
  for (let at = 0; at < sets.length; at += 1) {
    const set = sets[at] ?? [];
    const usual = Math.max(0, ...set.map((state) => ends.get(state) ?? 0));
    if (usual > 0) finals.set(at, usual);
    const byWord = new Map<string, Set<number>>();
    for (const state of set) {
      for (const [word, to] of spoken[state] ?? []) {
        const targets = byWord.get(word) ?? new Set();
        targets.add(to);
        byWord.set(word, targets);
      }
    }
    const row = new Map<string, number>();
    for (const [word, targets] of byWord) {
      const reached = closure(targets);
      const key = reached.join();
      let to = known.get(key);
      if (to === undefined) {
        to = sets.length;
        known.set(key, to);
        sets.push(reached);
      }
      row.set(word, to);
    }
    next.push(row);
  }
  return { next, ends: finals };
}

/** Equal texts get equal numbers, from 0 on. */
function numbered(keys: readonly string[]): number[] {
  const numbers = new Map<string, number>();
  return keys.map((key) => {
    const known = numbers.get(key) ?? numbers.size;
    numbers.set(key, known);
    return known;
  });
}

/** Merges states from which the same sentences go on: parts that split further until none do. */
function minimise({ next, ends }: PlainNet): PlainNet {
  let part: number[] = next.map((_, state) => ends.get(state) ?? 0);
  let parts = new Set(part).size;
  const ways = next.map((words) => [...words].sort(([a], [b]) => (a < b ? -1 : 1)));
  // What the words of a state are never changes: only where they lead is compared in each round.
  const spoken = numbered(ways.map((row) => row.map(([word]) => word).join()));
  for (;;) {
    const finer = numbered(
      ways.map((row, state) => {
        let key = `${part[state]} ${spoken[state]}`;
        for (const [, to] of row) key += ` ${part[to]}`;
        return key;
      }),
    );
    part = finer;
    const count = new Set(finer).size;
    if (count === parts) break;
    parts = count;
  }
  const first = part[0] ?? 0;
  // The start comes first; the others keep their order.
  const renamed = new Map<number, number>([[first, 0]]);
  for (const one of part) if (!renamed.has(one)) renamed.set(one, renamed.size);
  const rows: Map<string, number>[] = Array.from({ length: renamed.size }, () => new Map());
  const finals = new Map<number, number>();
  next.forEach((words, state) => {
    const to = renamed.get(part[state] ?? 0) ?? 0;
    const usual = ends.get(state);
    if (usual !== undefined) finals.set(to, usual);
    for (const [word, target] of words) rows[to]?.set(word, renamed.get(part[target] ?? 0) ?? 0);
  });
  return { next: rows, ends: finals };
}
