import { contentsOf, roleOf } from "../domain/chemistry/bottle.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { callRoll, isWaiting, type Roll } from "../domain/film/roll.ts";
import { oncePer } from "../domain/once-per.ts";
import type { DailyBottle, DailyRoll, Looks } from "../domain/reminders/looks.ts";
import type { Bench } from "../domain/session/bench.ts";
import { showVolume } from "../domain/units/show.ts";
import { looksOn } from "./bottle-looks.ts";

/** A concentrate or stock this far down runs low (common practice, no source). */
const LOW = 0.25;

const dailyBottle = oncePer((look: BottleLook): DailyBottle => {
  const { bottle, age, due, worn, unitsLeft } = look;
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
});

/** Kept per roll, so that its notice is kept with it. */
const dailyRoll = oncePer(
  (roll: Roll): DailyRoll => ({ id: roll.id, name: callRoll(roll), since: roll.addedOn }),
);

const waiting = oncePer((rolls: Bench["rolls"]): readonly DailyRoll[] => {
  const found: DailyRoll[] = [];
  for (const id in rolls) {
    const roll = rolls[id];
    if (roll !== undefined && isWaiting(roll)) found.push(dailyRoll(roll));
  }
  return found;
});

/** What the daily message reads off the bottles and the film of a bench. */
export const dailyLooks: Looks = {
  bottles: (bench, day) => looksOn(bench, day).map((look) => dailyBottle(look)),
  rolls: (bench) => waiting(bench.rolls),
};
