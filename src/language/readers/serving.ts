import type { Serving } from "../../domain/timing/stagger.ts";
import { phrases } from "./phrases.ts";

const people = "person, pair of hands, one person, one pair of hands, 1 person";
const ways = (tails: string): string =>
  people
    .split(", ")
    .flatMap((who) => tails.split(", ").map((tail) => `${who} ${tail}`))
    .join(", ");

/** The slot `{serving}`: who serves the tanks. Common usage, no source. */
export const readServing = phrases<Serving>([
  [
    "one for all",
    ways("for all tanks, for all the tanks, for all, for every tank, for both tanks"),
  ],
  ["one per tank", ways("per tank, for each tank, for each, at each tank, a tank")],
]);
