import { conflict } from "./conflict.ts";
import { checkPlain } from "./plain.ts";
import type { Store } from "./store.ts";

/** What a memory store holds; handed to a new one it plays a restart. */
export type Memory<T> = {
  readonly benches: Map<string, T>;
  readonly archives: Map<string, Map<string, unknown>>;
};

export const emptyMemory = <T>(): Memory<T> => ({ benches: new Map(), archives: new Map() });

/** Keeps benches for as long as the process lives: for tests and for a look around. */
export function createMemoryStore<T>(memory: Memory<T> = emptyMemory()): Store<T> {
  const { benches, archives } = memory;
  return {
    async load(id) {
      return { value: benches.get(id), notices: [] };
    },
    async commit(id, previous, next) {
      if (benches.get(id) !== previous) throw conflict();
      checkPlain(next, id);
      benches.set(id, next);
    },
    async archive(id, name, record) {
      checkPlain(record, name);
      const archive = archives.get(id) ?? new Map<string, unknown>();
      archives.set(id, archive.set(name, record));
    },
    async recall(id, name) {
      return archives.get(id)?.get(name);
    },
    async rewrite(id, previous, next, archived) {
      if (benches.get(id) !== previous) throw conflict();
      checkPlain(next, id);
      const archive = new Map<string, unknown>();
      for await (const [name, record] of archived) archive.set(name, record);
      archives.set(id, archive);
      benches.set(id, next);
      return next;
    },
    async list() {
      return [...benches.keys()].sort();
    },
    async close() {},
  };
}
