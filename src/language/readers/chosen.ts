import { phrases } from "./phrases.ts";

/** The slot `{chosen}`: what was picked before and is to be let go. */
export const readChosen = phrases<true>([[true, "chosen, published, picked"]]);
