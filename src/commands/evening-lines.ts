import { showMark } from "../domain/film/check-load.ts";
import type { EveningPlan, PlannedLoad } from "../domain/film/evening.ts";
import { type Roll, showPush } from "../domain/film/roll.ts";
import { clockMinute, isoInstant } from "../domain/timing/clock-text.ts";
import { type Instant, later } from "../domain/units/quantity.ts";
import { showUnits, showVolume } from "../domain/units/show.ts";
import type { Json } from "../reply/reply.ts";

export type Scene = {
  readonly from: Instant;
  readonly zone: string;
  readonly rolls: ReadonlyMap<string, Roll>;
  /** How rolls are called: those that were only asked about have no numbers. */
  readonly call: (rolls: readonly Roll[]) => string;
};

const rollsOf = ({ rolls }: Scene, ids: readonly string[]): readonly Roll[] =>
  ids.flatMap((id) => rolls.get(id) ?? []);

const hour = ({ from, zone }: Scene, minutes: number): string =>
  clockMinute(later(from, minutes * 60), zone);

const listed = (names: readonly string[]): string =>
  [names.slice(0, -1).join(", "), names.at(-1) ?? ""].filter((part) => part !== "").join(" and ");

/** One line a load: when, where, what, how much from which bottles, and what is left. */
export function loadLines(scene: Scene, plan: EveningPlan): readonly string[] {
  return plan.loads.flatMap((load, at) => {
    const { process, push, tank, bottles, volume, unitsAfter, waited, start, end, tests } = load;
    const names = scene.call(rollsOf(scene, load.rolls));
    const from = bottles.length === 0 ? "" : ` from ${listed(bottles)}`;
    const left = unitsAfter === undefined ? "" : `; ${showUnits(unitsAfter)} left after`;
    return [
      ...(waited > 0 ? [`${hour(scene, start - waited)} ${waited} min for reels to dry`] : []),
      `${hour(scene, start)} to ${hour(scene, end)} load ${at + 1}, ${tank}: ${names}, ${showMark(process)}${push === 0 ? "" : `, ${showPush(push)}`}, ${showVolume(volume)}${from}${left}`,
      ...tests.map((name) => `  ${name} is doubtful: look at this film before its next load`),
    ];
  });
}

export const loadJson = (scene: Scene, load: PlannedLoad): Json => ({
  start: isoInstant(later(scene.from, load.start * 60)),
  end: isoInstant(later(scene.from, load.end * 60)),
  tank: load.tank,
  bottles: [...load.bottles],
  rolls: rollsOf(scene, load.rolls).map(({ number }) => number),
  process: load.process,
  push_stops: load.push,
  volume_ml: load.volume,
  units: load.units,
  units_after: load.unitsAfter ?? null,
  waited_min: load.waited,
  test: load.tests.length > 0,
  tests: [...load.tests],
});
