import type { FillLevel } from "../../domain/chemistry/bottle.ts";
import { phrases } from "./phrases.ts";

/** The slot `{fill}`: how full a bottle stands. Common usage, no source. */
export const readFill = phrases<FillLevel>([
  ["full", "full, full up, full to the neck, full to the top, to the neck, brim full"],
  ["some air", "some air, with some air, nearly full, almost full, mostly full, not quite full"],
  ["some air", "three quarters full, three quarters, 3/4 full, 3/4, a little air, two thirds full"],
  ["half", "half, half full, half empty, 1/2 full, 1/2, about half, about half full"],
  ["less", "less, less than half, less than half full, nearly empty, almost empty, low, very low"],
  ["less", "a quarter full, a third full, quarter full, third full, 1/4 full, 1/3 full"],
]);
