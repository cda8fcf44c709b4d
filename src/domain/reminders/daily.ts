import { z } from "zod";
import type { Bench } from "../session/bench.ts";
import { type Instant, instant } from "../units/quantity.ts";
import { storedInstant, storedNumber, storedPastDay } from "../units/stored.ts";
import { type Day, instantOf, type TimeOfDay, zonedAt } from "./calendar.ts";

const at = storedInstant;
const minuteOfDay = storedNumber.int().min(0).max(1439);

/** How the daily message is set. The defaults are common practice, no source. */
export const dailySchema = z.object({
  /** Off: the bench tells nothing by itself; what a person asked for still comes. */
  on: z.boolean().default(true),
  hour: storedNumber.int().min(0).max(23).default(9),
  minute: storedNumber.int().min(0).max(59).default(0),
  /** Minutes after midnight; the same twice: no quiet hours. */
  quietFrom: minuteOfDay.default(22 * 60),
  quietTo: minuteOfDay.default(8 * 60),
  /** Film that has waited longer than this, days, is mentioned. */
  rollDays: storedNumber.int().min(1).default(30),
  /** The day a thermometer was last checked, ISO; missing: never told. */
  thermometerOn: storedPastDay.optional(),
});
export type Daily = z.infer<typeof dailySchema>;

/** What the clock keeps of the daily message. No command writes here but snooze. */
export const dailyLookSchema = z.object({
  /** When there is next something to say; missing: nothing in sight. */
  next: at.optional(),
  /** It came due when it could not be told (quiet hours): told then, late. */
  heldUntil: at.optional(),
  /** The day of the last message, ISO, and its instant. */
  on: storedPastDay.optional(),
  givenAt: at.optional(),
  /** What has been told, by key of the notice; `again`: snoozed until then. */
  told: z.record(z.string(), z.object({ on: storedPastDay, again: at.optional() })).default({}),
});
export type DailyLook = z.infer<typeof dailyLookSchema>;

export const newDaily = (): Daily => dailySchema.parse({});
export const newDailyLook = (): DailyLook => ({ told: {} });

/** The instant of the daily message on a day; over a clock change by the rule of `instantOf`. */
export const messageAt = (
  { daily: { hour, minute }, zone }: Pick<Bench, "daily" | "zone">,
  day: Day,
): Instant =>
  instant(day.toPlainDateTime({ hour, minute }).toZonedDateTime(zone).epochMilliseconds);

/** The first daily message after an instant. */
export function nextMessage(bench: Pick<Bench, "daily" | "zone">, after: Instant): Day {
  const today = zonedAt(after, bench.zone).toPlainDate();
  return messageAt(bench, today) > after ? today : today.add({ days: 1 });
}

const minutes = ({ hour, minute }: TimeOfDay): number => hour * 60 + minute;

/** The end of the quiet hours an instant lies in, or undefined outside them. */
export function quietUntil(
  { daily: { quietFrom, quietTo }, zone }: Pick<Bench, "daily" | "zone">,
  now: Instant,
): Instant | undefined {
  if (quietFrom === quietTo) return undefined;
  const local = zonedAt(now, zone);
  const time = minutes(local);
  const over = quietFrom > quietTo;
  const quiet = over ? time >= quietFrom || time < quietTo : time >= quietFrom && time < quietTo;
  if (!quiet) return undefined;
  const day = local.toPlainDate();
  const last = over && time >= quietFrom ? day.add({ days: 1 }) : day;
  const end = instantOf(last, { hour: Math.floor(quietTo / 60), minute: quietTo % 60 }, zone).at;
  // In the hour that comes twice the end may lie just behind: then it is over.
  return end > now ? end : undefined;
}
