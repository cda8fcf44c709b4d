import type { BottleRole } from "../../domain/chemistry/bottle.ts";
import { phrases } from "./phrases.ts";

/** The slot `{role}`: what a bottle is for. */
export const readRole = phrases<BottleRole>([
  ["stock", "stock, stock solution"],
  ["working", "working, working solution, working strength"],
  ["concentrate", "concentrate, concentrated"],
]);
