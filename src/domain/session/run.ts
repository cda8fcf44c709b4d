import { z } from "zod";
import { filmSchema } from "../film/load.ts";
import {
  figureOf,
  originSchema,
  pushSchema,
  reuseSchema,
  senses,
  timeLawSchema,
} from "../process/sheet.ts";
import { firstLookSchema } from "../record/first-look.ts";
import { celsius, celsiusDifference, millilitres, seconds, units } from "../units/quantity.ts";
import { storedId, storedInstant, storedNumber } from "../units/stored.ts";

const at = storedInstant;
const length = storedNumber.transform(seconds);

export const stageSchema = z.object({
  bath: z.string(),
  kind: z.string(),
  sense: z.enum(senses),
  time: length,
  timeOrigin: originSchema,
  /** The sheet's own time, where re-use or a push has changed it. */
  timeBase: length.optional(),
  /** What changed it, in order, s and in words. */
  corrections: z
    .array(
      z.object({
        kind: z.enum(["re-use", "push", "temperature", "drift"]),
        by: length,
        how: z.string(),
      }),
    )
    .optional(),
  /** The time before drift in the bath changed it. */
  timeMeant: length.optional(),
  /** Of the sheet, as it was when the run began. */
  timeLaw: timeLawSchema.optional(),
  compensation: z.boolean().optional(),
  /** What was answered to a departure: it is not asked about again. */
  driftAnswer: z
    .object({
      choice: z.enum(["keep", "adjust", "log"]),
      band: z.enum(["note", "ask", "hold"]),
      /** How far off it was at the most, °C, and when; missing in records made before this was kept. */
      off: storedNumber.transform(celsiusDifference).optional(),
      at: at.optional(),
    })
    .optional(),
  /**
   * How its time is worked out again while it waits, from what its bottle has done by then. Missing
   * where nothing of the kind changes it, where the user gave the time, and once it is in.
   */
  follows: z
    .object({
      base: figureOf(seconds),
      reuse: reuseSchema,
      push: z.object({ stops: storedNumber, rule: pushSchema }).optional(),
      /** The volume its sheet's rule speaks of, mL. */
      batch: storedNumber.transform(millilitres).optional(),
      /** What the bath will be used at, where it was told, with all its sheet says of that. */
      warmth: z
        .object({
          at: storedNumber.transform(celsius),
          aim: figureOf(celsius),
          tolerance: figureOf(celsiusDifference).optional(),
          law: timeLawSchema.optional(),
          /** The middle of an estimate, by the user's word. */
          middle: z.literal(true).optional(),
        })
        .optional(),
      /** How far all corrections together may go, as factors on the sheet's time. */
      limits: z
        .object({ least: storedNumber.positive(), most: storedNumber.positive() })
        .optional(),
    })
    .optional(),
  /** The sheet its figures are from, where that is its bottle's own and not the run's. */
  sheet: storedId.optional(),
  temperature: storedNumber.transform(celsius).optional(),
  temperatureOrigin: originSchema.optional(),
  tolerance: storedNumber.transform(celsiusDifference).optional(),
  /** Pouring out, inside the time. */
  drain: length,
  drainOrigin: originSchema,
  agitation: z
    .object({
      initial: length,
      /** Still after `initial`, before the first later beat; missing: the next multiple of `every`. */
      rest: length.optional(),
      every: length.optional(),
      each: length.optional(),
      origin: originSchema,
    })
    .optional(),
  vent: length.optional(),
  ventOrigin: originSchema.optional(),
  bottle: storedId.optional(),

  // What happens: absolute instants, filled as the run goes on.
  /** The pour window opens here; missing while nobody may pour yet. */
  pourAt: at.optional(),
  /** The tank is full: the time counts from here. */
  inAt: at.optional(),
  /** "in" was not heard: `inAt` is the middle of the window, give or take this. */
  plusMinus: length.optional(),
  /** Film left this bath. */
  outAt: at.optional(),
  /** Nobody said "out": the planned end was taken. */
  outByClock: z.boolean().optional(),
  /** Who said so, where somebody did. */
  inBy: z.string().optional(),
  outBy: z.string().optional(),
  skipped: z.boolean().optional(),
  /** Beats that fell into a `hold` or were told late, s into the stage; missing when there were none. */
  beatsSilent: z.array(length).optional(),
  beatsLate: z.array(length).optional(),
});
export type Stage = z.infer<typeof stageSchema>;

export const readingSchema = z.object({
  at,
  stage: storedNumber.int(),
  bath: z.string(),
  /** What it is taken for, °C: corrected where the thermometer's offset is known. */
  temperature: storedNumber.transform(celsius),
  /** Which thermometer, where it was said. */
  thermometer: z.string().optional(),
  /** As the thermometer showed it, °C; missing in records made before this was kept. */
  read: storedNumber.transform(celsius).optional(),
  /** Why it is not verified, in words; missing where it is. */
  unverified: z.string().optional(),
  /** Told afterwards, when the run was over: of the start or the end of its bath. */
  asked: z.enum(["start", "end"]).optional(),
});
export type ReadingTaken = z.infer<typeof readingSchema>;

/** What a person does to a run. */
export const deeds = ["planned", "poured", "read", "noted", "answered"] as const;

export const runSchema = z.object({
  id: storedId,
  tank: z.string(),
  title: z.string(),
  sheet: storedId,
  process: z.string(),
  film: z.array(filmSchema),
  /** Ids of the rolls of the list it takes, where they were named. */
  rolls: z.array(storedId).optional(),
  /** The user named no format: rolls were taken as 135-36 and this is said. */
  formatAssumed: z.boolean(),
  plannedAt: at,
  /** Who planned it. */
  by: z.string().optional(),
  current: storedNumber.int().nonnegative(),
  stages: z.array(stageSchema).min(1),
  /** Everything due before this instant has been told. */
  cuedUntil: at,
  /** Pour window, from the pour cue to "in", s. */
  window: length,
  /** `hold`: beats and chatter are silent, pours are not. */
  quiet: z.boolean(),
  readings: z.array(readingSchema),
  /** `by` is missing in records made before it was kept. */
  notes: z.array(z.object({ at, text: z.string(), by: z.string().optional() })),
  /** Stops; negative for a pull. */
  push: storedNumber.optional(),
  /** Water and a scrap roll, times divided by `speed`: nothing counts. */
  rehearsal: z.object({ speed: storedNumber.min(1).max(60) }).optional(),
  /** The user said that the film never went in: nothing counts. */
  nothingIn: z.boolean().optional(),
  /** The count was read back and found right; missing: unconfirmed, the higher figure stands. */
  countConfirmed: z.boolean().optional(),
  /** Bottle units before and after, by bottle id. */
  counted: z.array(
    z.object({
      bottle: storedId,
      before: storedNumber.transform(units),
      after: storedNumber.transform(units),
    }),
  ),
  endedAt: at.optional(),
  ending: z.enum(["done", "stopped", "by the clock"]).optional(),
  stoppedBecause: z.string().optional(),
  /** Who did what, as the channel names them; missing in records made before this was kept. */
  people: z.array(z.object({ name: z.string(), did: z.array(z.enum(deeds)) })).optional(),
  /** What went wrong at the tank, as `trouble` was told. */
  troubles: z.array(z.object({ at, what: z.string(), detail: z.string() })).optional(),
  /** The questions after the end; missing: not yet answered. */
  after: z
    .object({
      temperatures: z.enum(["told", "declined"]).optional(),
      /** What was different, in their own words; empty for nothing. */
      different: z.string().optional(),
    })
    .optional(),
  firstLook: firstLookSchema.optional(),
  /** A reminder for the first look was made. */
  lookAsked: z.boolean().optional(),
});
export type Run = z.infer<typeof runSchema>;

export const isLive = (run: Run): boolean => run.endedAt === undefined;

/** The stage the run stands in, or undefined after its end. */
export const currentStage = (run: Run): Stage | undefined =>
  isLive(run) ? run.stages[run.current] : undefined;

export const withStage = (run: Run, index: number, change: Partial<Stage>): Run => ({
  ...run,
  stages: run.stages.map((stage, i) => (i === index ? { ...stage, ...change } : stage)),
});
