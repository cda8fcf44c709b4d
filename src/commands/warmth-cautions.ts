import type { TimeTable } from "../data/time-temperature.ts";
import type { DeveloperTime } from "../domain/process/developer-time.ts";
import { type Bath, isColour, isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Stage } from "../domain/session/run.ts";
import { LAYERS_CAUTION } from "../domain/temperature/compensate.ts";
import { jumps, sayJump } from "../domain/temperature/jump.ts";
import { celsius } from "../domain/units/quantity.ts";
import { showCelsius, showDuration } from "../domain/units/show.ts";
import { agitationCaution } from "./chosen-times.ts";
import { toldOf } from "./start-stages.ts";

/** What the temperatures of a plan ask to be said with it. */
export function warmthCautions(
  bench: Bench,
  sheet: Sheet,
  stages: readonly Stage[],
  developed: DeveloperTime | undefined,
  table: TimeTable | undefined,
): readonly string[] {
  const known = stages.flatMap(({ bath, temperature }) =>
    temperature === undefined ? [] : [{ bath, temperature }],
  );
  const warmed = developed?.corrections.some(({ kind }) => kind === "temperature") === true;
  const timed = table !== undefined && stages.some(({ kind }) => isDeveloper(kind));
  return [
    ...jumps(known, bench.jumpLimit).map(sayJump),
    ...(timed ? agitationCaution(table) : []),
    ...(warmed && isColour(sheet.process) ? [LAYERS_CAUTION.text] : []),
  ];
}

/**
 * A time belongs to its temperature: another temperature with the sheet's time is said loudly,
 * where nothing worked the time out for it.
 *
 * @param timed  the baths as they were timed, one for each stage
 */
export function otherTemperature(
  timed: readonly Bath[],
  stages: readonly Stage[],
  wanted: { readonly temperature?: number | undefined; readonly duration?: number | undefined },
): readonly string[] {
  const bath = timed[toldOf(timed)];
  const stage = stages[toldOf(timed)];
  const { temperature: told, duration } = wanted;
  const aim = bath?.temperature?.value;
  if (aim === undefined || told === undefined || duration !== undefined) return [];
  if (stage?.corrections?.some(({ kind }) => kind === "temperature") === true) return [];
  if (Math.abs(told - aim) <= (bath?.tolerance?.value ?? 0.15) + 1e-9) return [];
  return [
    `The sheet's time belongs to ${showCelsius(aim)}, and you said ${showCelsius(celsius(told))}. I did not change the time: bring the bath to ${showCelsius(aim)}, or say the time your sheet gives.`,
  ];
}

/** What made a bath longer that is no developer: it is cold. */
export const coldLines = (stages: readonly Stage[]): readonly string[] =>
  stages
    .filter(({ kind }) => !isDeveloper(kind))
    .flatMap(({ bath, time, timeBase, corrections }) =>
      (corrections ?? []).map(
        ({ how }) =>
          `${bath} ${showDuration(time)} instead of ${showDuration(timeBase ?? time)}: ${how}`,
      ),
    );
