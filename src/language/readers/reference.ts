import { phrases } from "./phrases.ts";

/** The slot `{reference}`: the thermometer all others are held against. */
export const readReference = phrases<true>([
  [true, "reference, master, standard, trusted one, one i trust, one we trust"],
]);
