import { emergencies } from "../../../data/safety.ts";
import { toWords } from "../../../language/words.ts";

/** Does somebody call for first aid? It is answered to anyone, at once, in every mode. */
export const callsForAid = (text: string): boolean =>
  toWords(text).words.some((word) => emergencies.some(({ words }) => words.includes(word)));
