import { expect, test } from "vitest";
import { createMemoryStore } from "../../../store/memory-store.ts";
import type { Store } from "../../../store/store.ts";
import { Kept } from "./kept.ts";

type Count = { readonly count: number };

/** A store whose writes wait to be let through, or fail. */
function slowStore() {
  const store = createMemoryStore<Count>();
  const gates: PromiseWithResolvers<void>[] = [];
  const written: number[] = [];
  const slow: Store<Count> = {
    ...store,
    async commit(id, previous, next) {
      const gate = Promise.withResolvers<void>();
      gates.push(gate);
      await gate.promise;
      await store.commit(id, previous, next);
      written.push(next.count);
    },
  };
  return { slow, gates, written };
}

const more = ({ count }: Count): Count => ({ count: count + 1 });
const turns = () => new Promise((resolve) => setImmediate(resolve));

test("changes count at once; those that come during a write share the next one", async () => {
  const { slow, gates, written } = slowStore();
  const kept = new Kept("a", slow, { count: 0 }, undefined);
  const changes = [kept.change(more), kept.change(more), kept.change(more)];
  expect(kept.value).toEqual({ count: 3 });
  gates[0]?.resolve();
  await turns();
  gates[1]?.resolve();
  await Promise.all(changes);
  expect(written).toEqual([1, 3]);
  expect(gates).toHaveLength(2);
});

test("a change that could not be written stands in memory and goes out with the next", async () => {
  const { slow, gates, written } = slowStore();
  const kept = new Kept("a", slow, { count: 0 }, undefined);
  const first = kept.change(more);
  gates[0]?.reject(new Error("disk full"));
  await expect(first).rejects.toThrow("disk full");
  expect(kept.value).toEqual({ count: 1 });
  const second = kept.change(more);
  await turns();
  gates[1]?.resolve();
  await second;
  expect(written).toEqual([2]);
});
