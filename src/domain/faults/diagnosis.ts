import { z } from "zod";
import { storedId, storedInstant } from "../units/stored.ts";

const at = storedInstant;

/** What was seen and answered: the questions that stand behind a ranking. */
export const seenSchema = z.object({
  /** Symptoms by id, the one named first in front. */
  symptoms: z.array(storedId).min(1).max(3),
  /** The option's word by question; "unknown" where nobody could tell. */
  given: z.record(z.string(), storedId),
  /** What the film is for, where it was told and no run knows it. */
  process: z.string().optional(),
});
export type Seen = z.infer<typeof seenSchema>;

export const UNKNOWN = "unknown";

/** A questioning under way, to be gone on with after a look at the film. */
export const diagnosingSchema = seenSchema.extend({
  at,
  /** The run it is about; missing where none is known. */
  run: storedId.optional(),
});

/** A ranking that was given, and what proved true of it. */
export const diagnosisSchema = seenSchema.extend({
  id: storedId,
  at,
  by: z.string(),
  run: storedId.optional(),
  tank: z.string().optional(),
  /** Causes by id, most likely first, as they were told. */
  ranking: z.array(storedId),
  proved: z
    .object({
      cause: storedId,
      at,
      by: z.string(),
      /** What was set apart with it. */
      culprit: z
        .object({ kind: z.enum(["bottle", "sheet", "thermometer"]), id: storedId })
        .optional(),
    })
    .optional(),
});
export type Diagnosis = z.infer<typeof diagnosisSchema>;

/** Diagnoses a bench keeps; the oldest are let go. */
const KEPT = 40;

export const withDiagnosis = (
  known: readonly Diagnosis[] | undefined,
  one: Diagnosis,
): Diagnosis[] => [...(known ?? []).filter(({ id }) => id !== one.id), one].slice(-KEPT);
