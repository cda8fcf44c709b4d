import type { Country } from "../../domain/units/conversions.ts";
import { phrases } from "./phrases.ts";

/** Whose ounce, pint or quart. Common usage, no source. */
export const readCountry = phrases<Country>([
  ["us", "us, usa, u.s, american, america, united states, us customary"],
  ["imperial", "imperial, imp, uk, u.k, british, britain, english, united kingdom"],
]);
