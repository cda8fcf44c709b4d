import { z } from "zod";
import { storedDay, storedId, storedInstant, storedNumber } from "../units/stored.ts";

const at = storedInstant;
/** ISO date in the bench's zone. */
const day = storedDay;
const timeSchema = z.object({
  hour: storedNumber.int().min(0).max(23),
  minute: storedNumber.int().min(0).max(59),
});

export const periods = ["days", "weeks", "months", "years"] as const;

/** So many periods, at the most, lie between two times; people may say far fewer. */
const MOST_EVERY = 100_000;

/** Again and again, by the wall clock of the bench: 18:00 stays 18:00 over every clock change. */
export const repeatsSchema = z.object({
  kind: z.literal("every"),
  every: storedNumber.int().max(MOST_EVERY),
  unit: z.enum(periods),
  /** The first day it may fall on, and what every second week or third month counts from. */
  from: day,
  /** 1 is Monday; for weeks. */
  weekdays: z.array(storedNumber.int().min(1).max(7)).optional(),
  /** For months: the 31st is the last day of a shorter month. */
  monthDay: storedNumber.int().min(1).max(31).optional(),
  /** For months: the first, second, third, fourth or last (-1) such weekday. */
  nth: z.object({ nth: storedNumber.int(), weekday: storedNumber.int() }).optional(),
  /** Without one it goes into the daily message. */
  time: timeSchema.optional(),
});
export type Repeats = z.infer<typeof repeatsSchema>;

/** When something is due: at an instant, or with the daily message of a day. */
export const dueSchema = z.union([z.object({ at }), z.object({ day })]);
export type Due = z.infer<typeof dueSchema>;

const ruleSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("once") }),
  repeatsSchema,
]);

/**
 * Something a person asked to be told. What the bench tells by itself (bottles near their limit,
 * low stock, a thermometer to check, film that waits) is no stored reminder: `notices.ts` reads it
 * off the bench every day.
 */
export const reminderSchema = z.object({
  id: storedId,
  text: z.string(),
  owner: z.string(),
  rule: ruleSchema,
  /** The next time by its rule; missing once there is no other. */
  due: dueSchema.optional(),
  /** Told again then, beside the rule. */
  snoozed: dueSchema.optional(),
  /** It came due when it could not be told (quiet hours): told then, late. */
  heldUntil: at.optional(),
  /** What it was last told for. */
  was: dueSchema.optional(),
  /** When it was last told. */
  givenAt: at.optional(),
  /** ISO date on which it was ticked off; a repeated one only for that time. */
  doneOn: day.optional(),
});
export type Reminder = z.infer<typeof reminderSchema>;
