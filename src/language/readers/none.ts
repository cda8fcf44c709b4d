import { phrases } from "./phrases.ts";

/** The slot `{none}`: nothing of it. */
export const readNone = phrases<true>([
  [true, "nothing, none, none of it, no developer, not a drop, not any"],
]);
