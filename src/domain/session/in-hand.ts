import { isWater } from "../process/sheet.ts";
import { type Instant, later } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import type { Stage } from "./run.ts";

/** A bath that left the tank this long ago is no longer in anybody's hand, s (own bound, no source). */
const IN_HAND = 1200;

/** The bath that last left a tank and may now be on its way back to a bottle. Never water, so nothing of a rehearsal. */
export function inHand(bench: Bench, now: Instant): Stage | undefined {
  let latest: Stage | undefined;
  for (const run of Object.values(bench.runs)) {
    if (run.rehearsal !== undefined) continue;
    for (const stage of run.stages) {
      const { outAt } = stage;
      if (outAt === undefined || outAt > now || now > later(outAt, IN_HAND)) continue;
      if (isWater(stage.kind) || stage.skipped === true) continue;
      if (latest?.outAt === undefined || outAt > latest.outAt) latest = stage;
    }
  }
  return latest;
}
