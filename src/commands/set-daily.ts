import { z } from "zod";
import { showTime, type TimeOfDay } from "../domain/reminders/calendar.ts";
import type { Daily } from "../domain/reminders/daily.ts";
import { planDaily } from "../domain/reminders/daily-message.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Option } from "../reply/reply.ts";
import { dailyLooks } from "./daily-looks.ts";

/** What the slot `{clock}` gives. */
export const clockSchema = z.object({
  hour: z.number().int(),
  minute: z.number().int(),
  ambiguous: z.literal(true).optional(),
  figures: z.literal(true).optional(),
});
type Clock = z.infer<typeof clockSchema>;

/** Morning or evening? Figures with a colon are read as a 24-hour clock, and said back in full. */
export const isOpen = ({ ambiguous, figures }: Clock): boolean =>
  ambiguous === true && figures !== true;

/** The two answers to "morning or evening?". */
export function halves(clock: Clock): readonly Option[] {
  const [early, late] = [inMorning(clock), inEvening(clock)];
  return [
    {
      word: `${showTime(early)} ${early.hour === 0 ? "at night" : "in the morning"}`,
      value: early,
    },
    { word: `${showTime(late)} ${late.hour === 12 ? "at noon" : "in the evening"}`, value: late },
  ];
}

/** The bench with the daily message set anew, and planned by it. */
export const setDaily = (bench: Bench, change: Partial<Daily>, now: Instant): Bench =>
  planDaily({ ...bench, daily: { ...bench.daily, ...change } }, now, dailyLooks);

/** The same bench with its next message planned anew, after a check of a thermometer. */
export const recheck = (bench: Bench, now: Instant): Bench => planDaily(bench, now, dailyLooks);

const inEvening = ({ hour, minute }: Clock): TimeOfDay => ({ hour: (hour % 12) + 12, minute });
const inMorning = ({ hour, minute }: Clock): TimeOfDay => ({ hour: hour % 12, minute });
