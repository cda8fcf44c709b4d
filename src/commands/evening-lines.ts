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

/** One line a load: when, where, what, how much, and what is left after it. */
export function loadLines(scene: Scene, plan: EveningPlan): readonly string[] {
  return plan.loads.flatMap((load, at) => {
    const { process, push, tank, volume, unitsAfter, waited, start, end, test } = load;
    const names = scene.call(rollsOf(scene, load.rolls));
    const left = unitsAfter === undefined ? "" : `; ${showUnits(unitsAfter)} left after`;
    return [
      ...(waited > 0 ? [`${hour(scene, start - waited)} ${waited} min for reels to dry`] : []),
      `${hour(scene, start)} to ${hour(scene, end)} load ${at + 1}, ${tank}: ${names}, ${showMark(process)}${push === 0 ? "" : `, ${showPush(push)}`}, ${showVolume(volume)}${left}`,
      ...(test ? ["  the bath is doubtful: look at this film before the next load"] : []),
    ];
  });
}

export const loadJson = (scene: Scene, load: PlannedLoad): Json => ({
  start: isoInstant(later(scene.from, load.start * 60)),
  end: isoInstant(later(scene.from, load.end * 60)),
  tank: load.tank,
  rolls: rollsOf(scene, load.rolls).map(({ number }) => number),
  process: load.process,
  push_stops: load.push,
  volume_ml: load.volume,
  units: load.units,
  units_after: load.unitsAfter ?? null,
  waited_min: load.waited,
  test: load.test,
});
