import { toWords } from "../language/words.ts";
import { emergencyIn } from "./emergency-in.ts";

/** Does somebody call for first aid? It is answered to anyone, at once, in every mode. */
export const callsForAid = (text: string): boolean => emergencyIn(toWords(text)) !== undefined;
