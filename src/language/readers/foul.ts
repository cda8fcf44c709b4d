import { phrases } from "./phrases.ts";

/** The slot `{foul}`: something foreign got in. Common usage, no source. */
export const readFoul = phrases<true>([
  [
    true,
    "contaminated, polluted, tainted, spoilt, spoiled, cross contaminated, cross-contaminated",
  ],
]);
