import { z } from "zod";
import { filmSchema } from "../film/load.ts";
import { celsius, celsiusDifference } from "../units/quantity.ts";
import { storedId, storedInstant, storedNumber } from "../units/stored.ts";
import { peopleOf } from "./people-of.ts";
import type { Run } from "./run.ts";
import { stageRecords } from "./summary.ts";

/** What a run had to do with, kept when the run itself moves to a file of its own. */
export const touchedSchema = z.object({
  /** Ids of bottles whose solution met the film. */
  bottles: z.array(storedId),
  sheet: storedId,
  /** Other sheets whose figures a bath went by; missing when there were none. */
  otherSheets: z.array(storedId).optional(),
  /** Thermometers by name; an empty name where a reading named none. */
  thermometers: z.array(z.string()),
  film: z.array(filmSchema),
  /** Whose hands or words are in it; missing when nobody is known, or in older records. */
  people: z.array(z.string()).optional(),
  /** Film really was in a bath; missing: taken for so. */
  inBath: z.boolean().optional(),
  /** Its process, and how many deviations it had; missing in records made before they were kept. */
  process: z.string().optional(),
  deviations: storedNumber.int().optional(),
  /** Readings of named thermometers, to be read anew when one proves off. */
  readings: z
    .array(
      z.object({
        at: storedInstant,
        bath: z.string(),
        thermometer: z.string(),
        read: storedNumber.transform(celsius),
        corrected: storedNumber.transform(celsius),
        aim: storedNumber.transform(celsius).optional(),
        tolerance: storedNumber.transform(celsiusDifference).optional(),
      }),
    )
    .optional(),
});
export type Touched = z.infer<typeof touchedSchema>;

/** Only what really happened: a bottle that was planned but never poured touched nothing. */
export function touchedBy(run: Run): Touched {
  const bottles = run.stages.flatMap(({ bottle, inAt }) =>
    bottle === undefined || inAt === undefined ? [] : [bottle],
  );
  const otherSheets = run.stages.flatMap(({ sheet }) =>
    sheet === undefined || sheet === run.sheet ? [] : [sheet],
  );
  const people = peopleOf(run);
  return {
    ...(people.length === 0 ? {} : { people: [...people] }),
    bottles: run.nothingIn === true ? [] : [...new Set(bottles)],
    sheet: run.sheet,
    ...(otherSheets.length === 0 ? {} : { otherSheets }),
    thermometers: [...new Set(run.readings.map(({ thermometer }) => thermometer ?? ""))],
    film: run.film,
    inBath: run.nothingIn !== true && run.stages.some(({ inAt }) => inAt !== undefined),
    process: run.process,
    deviations: stageRecords(run).reduce((sum, { deviations }) => sum + deviations.length, 0),
    readings: run.readings.flatMap(({ at, stage, bath, temperature, thermometer, read }) => {
      if (thermometer === undefined) return [];
      const planned = run.stages[stage];
      return [
        {
          at,
          bath,
          thermometer,
          read: read ?? temperature,
          corrected: temperature,
          aim: planned?.temperature,
          tolerance: planned?.tolerance,
        },
      ];
    }),
  };
}
