import { phrases } from "./phrases.ts";

/** The slot `{toppedUp}`: more of the same was put in. Common usage, no source. */
export const readToppedUp = phrases<true>([
  [true, "up, topped up, filled up, topped off, filled it up, refilled"],
]);
