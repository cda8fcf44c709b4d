import { phrases } from "./phrases.ts";

/** The slot `{nothing}`: it went as it always goes. */
export const readNothing = phrases<true>([
  [true, "nothing, nothing was, nothing at all, not a thing"],
]);
