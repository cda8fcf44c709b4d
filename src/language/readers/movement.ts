import type { Movement } from "../../domain/process/agitation.ts";
import { phrases } from "./phrases.ts";

/** The slot `{movement}`: how a tank or a holder is moved. Common usage, no source. */
export const readMovement = phrases<Movement>([
  [
    "inversion",
    "inversion, inversions, by inversion, by inversions, turned over, turned over by hand",
  ],
  ["inversion", "inverted, inverted by hand, by hand, hand inversion"],
  ["stick", "stick, by stick, with stick, with a stick, by its stick, twirled, twirl stick"],
  ["rotary", "rotary, rotating, rotated, by rotation, rotation, on rollers, on a roller, rolled"],
  ["rotary", "on a processor, on a motor base, on a motor, on a rotary base, on a roller base"],
  ["rotary", "turned by motor, by motor, motor, turning all the time, turned all the time"],
  ["rack", "rack, by rack, lifted, by lifting, in a rack, on a rack, on hangers, hangers"],
]);
