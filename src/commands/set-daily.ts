import { z } from "zod";
import type { TimeOfDay } from "../domain/reminders/calendar.ts";
import type { Daily } from "../domain/reminders/daily.ts";
import { planDaily } from "../domain/reminders/daily-message.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { dailyLooks } from "./daily-looks.ts";

/** What the slot `{clock}` gives. */
export const clockSchema = z.object({
  hour: z.number().int(),
  minute: z.number().int(),
  ambiguous: z.literal(true).optional(),
});
type Clock = z.infer<typeof clockSchema>;

/** The bench with the daily message set anew, and planned by it. */
export const setDaily = (bench: Bench, change: Partial<Daily>, now: Instant): Bench =>
  planDaily({ ...bench, daily: { ...bench.daily, ...change } }, now, dailyLooks);

/** The same bench with its next message planned anew, after a check of a thermometer. */
export const recheck = (bench: Bench, now: Instant): Bench => planDaily(bench, now, dailyLooks);

/** The evening and the morning meaning of a clock time that leaves it open. */
export const inEvening = ({ hour, minute, ambiguous }: Clock): TimeOfDay =>
  ambiguous === true ? { hour: (hour % 12) + 12, minute } : { hour, minute };
export const inMorning = ({ hour, minute, ambiguous }: Clock): TimeOfDay =>
  ambiguous === true ? { hour: hour % 12, minute } : { hour, minute };
