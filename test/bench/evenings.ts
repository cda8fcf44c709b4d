import { performance } from "node:perf_hooks";
import type { Evening } from "../../src/domain/film/evening.ts";
import { planEvening } from "../../src/domain/film/plan-evening.ts";
import { anyEvening, withBottles } from "../support/evenings.ts";
import { seeded } from "../support/seeded.ts";
import { percentile } from "./percentile.ts";

export type EveningPlans = {
  /** 95th percentiles, ms an evening. */
  readonly twelve: number;
  readonly twelveOfSeveral: number;
  readonly sixty: number;
};

/** Plans invented evenings: twelve rolls in three tanks, the same with several bottles, sixty in five. */
export function benchEvenings(): EveningPlans {
  const timed = (rounds: number, seed: number, make: (chance: () => number) => Evening): number => {
    const chance = seeded(seed);
    const took = Array.from({ length: rounds }, () => {
      const of = make(chance);
      const from = performance.now();
      planEvening(of);
      return performance.now() - from;
    });
    return percentile(took, 95);
  };
  return {
    twelve: timed(100, 12, (chance) => anyEvening(chance, 12, 3)),
    twelveOfSeveral: timed(100, 13, (chance) => withBottles(anyEvening(chance, 12, 3), chance, 3)),
    sixty: timed(20, 61, (chance) => anyEvening(chance, 60, 5)),
  };
}
