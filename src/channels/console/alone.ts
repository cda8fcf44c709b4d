import { createBell } from "../../conversation/bell.ts";
import type { Bell, BenchParts } from "../../conversation/benches.ts";
import { systemClock } from "../../platform/clock.ts";
import { startDailyLook } from "../../scheduler/daily-look.ts";

/** How a bench is kept in step with real time: beside others, or alone. */
export type Join = (parts: BenchParts) => Bell;

/** A bench that is the only one of its process. */
export const alone: Join = (parts) =>
  createBell({ ...parts, clock: systemClock, housekeep: startDailyLook });
