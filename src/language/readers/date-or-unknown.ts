import type { Reading, SlotReader } from "../reader.ts";
import { readPastDate } from "./date-past.ts";
import { phrases } from "./phrases.ts";

const readUnknown = phrases<"unknown">([
  ["unknown", "i do not know, do not know, no idea, unknown, not sure, i am not sure, dunno"],
  ["unknown", "i have no idea, nobody knows, no date, i forgot, can not remember, i can not say"],
  ["unknown", "i do not remember, do not remember, on an unknown date, an unknown date"],
  [
    "unknown",
    "unknown date, date unknown, date not known, the date is unknown, at an unknown date",
  ],
]);

/** The slot `{mixedDate}`: a past day, or the word that nobody knows it. */
export const readDateOrUnknown: SlotReader = (words, from, listening): readonly Reading[] => {
  const unknown = readUnknown(words, from);
  return unknown.length > 0 ? unknown : readPastDate(words, from, listening);
};
