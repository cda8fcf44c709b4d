import { z } from "zod";
import { dayAt, instantOf } from "../reminders/calendar.ts";
import type { Reminder } from "../reminders/reminder.ts";
import type { Bench } from "../session/bench.ts";
import { type Instant, later } from "../units/quantity.ts";
import { storedNumber } from "../units/stored.ts";
import { wantsLook } from "./wants-look.ts";

/** When the bench asks for the first look by itself. */
export const lookTimeSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("off") }),
  /** With the daily message, so many days after the run. */
  z.object({ kind: z.literal("daily"), days: storedNumber.int().min(0).max(30) }),
  /** At the first such time of day after the run. */
  z.object({
    kind: z.literal("clock"),
    hour: storedNumber.int().min(0).max(23),
    minute: storedNumber.int().min(0).max(59),
  }),
]);
export type LookTime = z.infer<typeof lookTimeSchema>;

/** With the daily message of the next morning: film is dry by then (common practice, no source). */
export const usualLook: LookTime = { kind: "daily", days: 1 };

export const lookTimeOf = (bench: Pick<Bench, "lookTime">): LookTime => bench.lookTime ?? usualLook;

const keyOf = (runId: string): string => `look-${runId}`;

/** Film has to hang that long at least, s: our own bound. */
const DRYING = 1800;

/**
 * The bench with a reminder for each run that wants a first look at a time of day. Each is made
 * once: one that was forgotten does not come back. The same bench when nothing was made.
 */
export function planLooks(bench: Bench, now: Instant): Bench {
  const time = lookTimeOf(bench);
  if (time.kind !== "clock") return bench;
  let next = bench;
  for (const run of Object.values(bench.runs)) {
    if (run.lookAsked === true || !wantsLook(run)) continue;
    const day = dayAt(run.endedAt, bench.zone);
    const today = instantOf(day, time, bench.zone).at;
    const at =
      today >= later(run.endedAt, DRYING)
        ? today
        : instantOf(day.add({ days: 1 }), time, bench.zone).at;
    if (at < now) continue;
    const reminder: Reminder = {
      id: keyOf(run.id),
      text: `first look at ${run.tank}: say first look`,
      owner: run.people?.[0]?.name ?? "",
      rule: { kind: "once" },
      due: { at },
    };
    next = {
      ...next,
      reminders: { ...next.reminders, [reminder.id]: reminder },
      runs: { ...next.runs, [run.id]: { ...run, lookAsked: true } },
    };
  }
  return next;
}

/** The bench without the reminder for a look that has been taken. */
export function looksDone(bench: Bench, runId: string): Bench {
  const id = keyOf(runId);
  if (!Object.hasOwn(bench.reminders, id)) return bench;
  const { [id]: _, ...reminders } = bench.reminders;
  return { ...bench, reminders };
}
