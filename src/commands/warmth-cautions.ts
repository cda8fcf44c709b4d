import type { TimeTable } from "../data/time-temperature.ts";
import type { DeveloperTime } from "../domain/process/developer-time.ts";
import { isColour, isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Stage } from "../domain/session/run.ts";
import { LAYERS_CAUTION } from "../domain/temperature/compensate.ts";
import { jumps, sayJump } from "../domain/temperature/jump.ts";
import { showDuration } from "../domain/units/show.ts";
import { agitationCaution } from "./chosen-times.ts";

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
