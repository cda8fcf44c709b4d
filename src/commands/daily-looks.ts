import { contentsOf, roleOf } from "../domain/chemistry/bottle.ts";
import { callRoll, isWaiting } from "../domain/film/roll.ts";
import type { DailyBottle, Looks } from "../domain/reminders/looks.ts";
import { showVolume } from "../domain/units/show.ts";
import { looksOn } from "./bottle-looks.ts";

/** A concentrate or stock this far down runs low (common practice, no source). */
const LOW = 0.25;

/** What the daily message reads off the bottles and the film of a bench. */
export const dailyLooks: Looks = {
  bottles: (bench, day) =>
    looksOn(bench, day).map(({ bottle, age, due, worn, unitsLeft }): DailyBottle => {
      const left = contentsOf(bottle);
      const low = roleOf(bottle) !== "working" && left <= bottle.volume * LOW;
      const { id, name, bath } = bottle;
      return {
        id,
        name,
        bath,
        dueOn: due,
        ageShare: age ?? 0,
        unitsShare: worn,
        unitsLeft,
        low: low ? `${showVolume(left)} left` : undefined,
      };
    }),
  rolls: (bench) =>
    Object.values(bench.rolls)
      .filter(isWaiting)
      .map((roll) => ({ id: roll.id, name: callRoll(roll), since: roll.addedOn })),
};
