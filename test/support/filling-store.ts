import type { BenchRecord } from "../../src/conversation/record.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { StoreError } from "../../src/store/store-error.ts";

/** A store in memory whose disk a test fills, and makes room on again. */
export function fillingStore() {
  const kept = createMemoryStore(emptyMemory<BenchRecord>());
  let full = false;
  const store: typeof kept = {
    ...kept,
    async commit(...given) {
      if (full) throw new StoreError("disk-full", "The disk is full.");
      await kept.commit(...given);
    },
  };
  const fill = (is: boolean): void => {
    full = is;
  };
  return { kept, store, fill };
}
