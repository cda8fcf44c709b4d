import { phrases } from "./phrases.ts";

/** The slot `{nextMorning}`: with the daily message of the day after. */
export const readNextMorning = phrases<true>([
  [true, "next morning, next day, daily message, morning, day after, morning after"],
]);
