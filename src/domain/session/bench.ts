import { z } from "zod";
import { type Bottle, bottleSchema } from "../chemistry/bottle.ts";
import { diagnosingSchema, diagnosisSchema } from "../faults/diagnosis.ts";
import { rollSchema } from "../film/roll.ts";
import { tankSchema } from "../film/tank.ts";
import { sheetSchema } from "../process/sheet.ts";
import { lookTimeSchema } from "../record/plan-looks.ts";
import { dailyLookSchema, dailySchema, newDaily, newDailyLook } from "../reminders/daily.ts";
import { reminderSchema } from "../reminders/reminder.ts";
import { answersSchema } from "../teaching/answers.ts";
import { servings } from "../timing/stagger.ts";
import { celsius, celsiusDifference, millilitres } from "../units/quantity.ts";
import {
  storedById,
  storedId,
  storedInstant,
  storedNumber,
  storedPastDay,
  storedZone,
} from "../units/stored.ts";
import { draftSchema } from "./draft.ts";
import { handoverSchema } from "./handover.ts";
import { inUseSchema } from "./in-use.ts";
import { mixingSchema } from "./mixing-walk.ts";
import { runSchema } from "./run.ts";
import { touchedSchema } from "./touched.ts";

const at = storedInstant;

const thermometerSchema = z.object({
  name: z.string(),
  isReference: z.boolean().optional(),
  checks: z.array(
    z.object({
      at,
      read: storedNumber.transform(celsius),
      reference: storedNumber.transform(celsius),
    }),
  ),
});

export const modes = ["bench", "wet", "dark"] as const;

export const benchSchema = z.object({
  id: z.string(),
  name: z.string(),
  /** IANA zone. */
  zone: storedZone,
  country: z.enum(["us", "imperial"]).optional(),
  degrees: z.enum(["C", "F"]).optional(),
  mode: z.enum(modes),
  /** From the plan to the first pour, s. */
  lead: storedNumber,
  /** From a pour cue until "in" is asked for, s. */
  window: storedNumber,
  /** Whose hands serve the tanks; missing: one person's serve them all. */
  serving: z.enum(servings).optional(),
  /** Reels dry this long before they take film again, s; missing: as is common. */
  reelDrying: storedNumber.optional(),
  /** Loading, warming and washing up of one load, s; missing: as is common. */
  loadSetup: storedNumber.optional(),
  nextId: storedNumber.int(),
  sheets: storedById(sheetSchema),
  /** What was read off the paper, by sheet, so that a line can be corrected later. */
  taught: z.record(z.string(), answersSchema),
  /** The sheet in use; missing: the shipped ones answer and say so. */
  sheetInUse: storedId.optional(),
  bottles: storedById(bottleSchema),
  runs: storedById(runSchema),
  /** Film that waits to be processed, by id. */
  rolls: storedById(rollSchema).default({}),
  /** Tanks by spoken name, lower case. */
  tanks: z.record(z.string(), tankSchema).default({}),
  /** Thermometers by name, lower case. */
  thermometers: z.record(z.string(), thermometerSchema).default({}),
  /** The heat a tank takes, as so much water, by its name in lower case. */
  tankHeat: z
    .record(z.string(), z.object({ takes: storedNumber.positive().transform(millilitres), at }))
    .default({}),
  /** From bath to bath film may jump so far, °C; missing: as is common. */
  jumpLimit: storedNumber.transform(celsiusDifference).optional(),
  /** The shipped table of times chosen for black-and-white developers, by its id. */
  timeTable: storedId.optional(),
  reminders: storedById(reminderSchema).default({}),
  daily: dailySchema.prefault({}),
  dailyLook: dailyLookSchema.prefault({}),
  /** When the first look at a film is asked for; missing: as is usual. */
  lookTime: lookTimeSchema.optional(),
  /** Runs moved to files of their own, oldest first. */
  pastRuns: z.array(
    z.object({
      id: storedId,
      title: z.string(),
      tank: z.string(),
      plannedAt: at,
      /** What it touched, for a recall; missing in records made before this was kept. */
      touched: touchedSchema.optional(),
      /** When its film came out, where nobody had looked at it by the time it was moved. */
      unseen: at.optional(),
    }),
  ),
  /** How the bench speaks; missing: as a new one does. */
  voice: z
    .object({
      /** 0 to 1. */
      volume: z.number().min(0).max(1).optional(),
      verbosity: z.enum(["cues", "short", "full"]).optional(),
    })
    .optional(),
  draft: draftSchema.optional(),
  mixing: mixingSchema.optional(),
  /** What was last mixed in each vessel, by its spoken name, since it was washed. */
  vessels: z.record(z.string(), z.object({ bath: z.string(), kind: z.string(), at })),
  /** When the cautions of a kind of bath were last shown. */
  cautioned: z.record(z.string(), at),
  notes: z.array(z.object({ at, by: z.string(), text: z.string() })),
  /** Who has what, by kind and name in lower case: "tank north". */
  inUse: z.record(z.string(), inUseSchema).optional(),
  /** What one shift told the next, latest last. */
  handovers: z.array(handoverSchema).optional(),
  /** ISO date on which each sheet was taught: nothing mixed by it is older. */
  taughtOn: z.record(z.string(), storedPastDay).optional(),
  /** Sheets and thermometers that proved bad, by kind and name; bottles carry their own mark. */
  suspects: z
    .array(
      z.object({
        kind: z.enum(["sheet", "thermometer"]),
        name: z.string(),
        since: at,
        why: z.string(),
      }),
    )
    .optional(),
  /** A search for what went wrong, half way. */
  diagnosing: diagnosingSchema.optional(),
  /** Such searches that came to a ranking, oldest first, with what proved true. */
  diagnoses: z.array(diagnosisSchema).optional(),
  /** What the household was told about its waste. */
  waste: z
    .object({
      drain: z.enum(["sewer", "septic", "unknown"]).optional(),
      /** Kinds of bath the council collects. */
      collected: z.array(z.string()).optional(),
    })
    .optional(),
});
export type Bench = z.infer<typeof benchSchema>;

export const newBench = (id: string, zone: string): Bench => ({
  id,
  name: id,
  zone,
  mode: "bench",
  lead: 30,
  window: 20,
  nextId: 1,
  sheets: {},
  taught: {},
  bottles: {},
  runs: {},
  rolls: {},
  tanks: {},
  thermometers: {},
  tankHeat: {},
  reminders: {},
  daily: newDaily(),
  dailyLook: newDailyLook(),
  pastRuns: [],
  vessels: {},
  cautioned: {},
  notes: [],
});

/** A fresh id and the bench that has given it away. */
export function takeId(bench: Bench, prefix: string): { id: string; bench: Bench } {
  return { id: `${prefix}${bench.nextId}`, bench: { ...bench, nextId: bench.nextId + 1 } };
}

export const liveBottles = (bench: Bench): readonly Bottle[] =>
  Object.values(bench.bottles).filter((bottle) => bottle.retiredOn === undefined);
