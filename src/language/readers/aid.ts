import { emergencies } from "../../data/safety.ts";
import { phrases } from "./phrases.ts";

/** The slot `{aid}`: an emergency named in a word that is none in other company, "cut" say. */
export const readAid = phrases<string>(
  emergencies.flatMap(({ id, alone }) => (alone.length === 0 ? [] : [[id, alone.join(",")]])),
);
