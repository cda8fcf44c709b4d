import { phrases } from "./phrases.ts";

export type LookSign = "yellow" | "deposit" | "dark" | "crystals" | "cloudy";

/** The slot `{sign}`: what a solution looks like when something is wrong. Common usage, no source. */
export const readLookSign = phrases<LookSign>([
  ["yellow", "yellow, yellowish, turned yellow, gone yellow"],
  ["deposit", "white deposit, a white deposit, deposit, a deposit, precipitate, white flakes"],
  ["deposit", "flakes, sludge, sediment, white stuff, a white precipitate, bits in it"],
  ["dark", "dark, brown, black, dark brown, like tea, like coffee, gone dark, gone brown"],
  ["crystals", "crystals, crunchy, crystallized, crystallised, gritty, grains, crystals in it"],
  ["cloudy", "cloudy, milky, murky, turbid, hazy"],
]);
