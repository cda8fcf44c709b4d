import type { Place } from "../../speech/listen.ts";

/** Where phrases are heard, quiet first. */
export const places: readonly Place[] = [
  {},
  ...(["white", "pink", "fan", "water"] as const).flatMap((noise) => [
    { noise, db: 20 },
    { noise, db: 10 },
  ]),
];
