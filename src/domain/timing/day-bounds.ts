import { type Instant, instant } from "../units/quantity.ts";

/** The first instant of an ISO date in a zone: after midnight where the clock goes past it. */
export const dayStart = (iso: string, zone: string): Instant =>
  startOf(Temporal.PlainDate.from(iso), zone);

/** The first instant that is no longer of an ISO date. */
export const dayEnd = (iso: string, zone: string): Instant =>
  startOf(Temporal.PlainDate.from(iso).add({ days: 1 }), zone);

const startOf = (day: Temporal.PlainDate, zone: string): Instant =>
  instant(day.toZonedDateTime(zone).epochMilliseconds);
