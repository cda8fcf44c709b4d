import { DRYING_MINUTES, SETTING_UP_MINUTES } from "../domain/film/plan-evening.ts";
import { commonPractice, type Origin, told } from "../domain/origin.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Seconds, seconds } from "../domain/units/quantity.ts";

/** How far ahead an evening reaches when no end was named. */
export const LONGEST_HOURS = 12;

/** How long reels of this bench dry between loads. */
export const dryingOf = (bench: Bench): Seconds => seconds(bench.reelDrying ?? DRYING_MINUTES * 60);
/** How long it takes to set up a load: loading reels, warming, washing up after. */
export const setupOf = (bench: Bench): Seconds =>
  seconds(bench.loadSetup ?? SETTING_UP_MINUTES * 60);

export const ownOrHabit = (own: number | undefined): Origin =>
  own === undefined ? commonPractice : told;
