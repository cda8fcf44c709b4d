import { factsOf } from "../domain/log/run-facts.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Past } from "../domain/session/past.ts";
import { type Run, runSchema } from "../domain/session/run.ts";
import { dateOf, showDate } from "../domain/timing/clock-text.ts";
import type { Store } from "../store/store.ts";
import { StoreError } from "../store/store-error.ts";

/** So many files are open at once. */
const AT_ONCE = 16;

type Recalled = { readonly run: Run } | { readonly damaged: string };

/**
 * Reads every run a bench has put in a file of its own. One that is missing or damaged is told of
 * and stepped over. Nothing waits for it: between files the clock has its turn.
 */
export async function recallPast(
  store: Pick<Store<unknown>, "recall">,
  id: string,
  bench: Bench,
): Promise<Past> {
  const runs: Run[] = [];
  const damaged: string[] = [];
  for (let from = 0; from < bench.pastRuns.length; from += AT_ONCE) {
    const group = bench.pastRuns.slice(from, from + AT_ONCE);
    const recalled = await Promise.all(group.map((entry) => recallOne(store, id, bench, entry)));
    for (const one of recalled) {
      if ("damaged" in one) {
        damaged.push(one.damaged);
        continue;
      }
      runs.push(one.run);
      // Worked out here, a few at a time: the first question would do it for all of them at once.
      factsOf(one.run);
    }
    await new Promise((soon) => setImmediate(soon));
  }
  return { runs, damaged };
}

async function recallOne(
  store: Pick<Store<unknown>, "recall">,
  bench: string,
  { zone }: Bench,
  { id, tank, title, plannedAt }: Bench["pastRuns"][number],
): Promise<Recalled> {
  const which = `The record of ${tank}, ${title}, ${showDate(dateOf(plannedAt, zone))} (${id})`;
  const left = "I left it as it is and go on without it.";
  try {
    const record = await store.recall(bench, id);
    if (record === undefined) return { damaged: `${which} is missing; I go on without it.` };
    const parsed = runSchema.safeParse(record);
    if (parsed.success && parsed.data.id === id) return { run: parsed.data };
    return { damaged: `${which} does not hold what a run must hold. ${left}` };
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    return { damaged: `${which} cannot be read. ${left}` };
  }
}
