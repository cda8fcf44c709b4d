import { z } from "zod";
import { repeatsSchema } from "../domain/reminders/reminder.ts";

const time = { hour: z.number().int(), minute: z.number().int() };

/** What the slots `{when}` and `{delay}` give, as a field of a command. */
export const whenSchema = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("at"),
    at: z.number(),
    meant: z.object({ ...time, shift: z.enum(["gap", "twice"]) }).optional(),
    taken: z.string().optional(),
  }),
  z.object({ kind: z.literal("day"), day: z.iso.date() }),
  z.object({
    kind: z.literal("from-bottle"),
    months: z.number().int(),
    days: z.number().int(),
    anchor: z.enum(["mixed", "limit"]),
    bottle: z.string().optional(),
  }),
  z.object({ kind: z.literal("no-such-date"), heard: z.string() }),
]);
export type WhenField = z.infer<typeof whenSchema>;

export const momentSchema = z.union([whenSchema, repeatsSchema]);
export type MomentField = z.infer<typeof momentSchema>;
