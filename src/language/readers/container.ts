import type { Container } from "../../domain/chemistry/bottle.ts";
import { phrases } from "./phrases.ts";

/** A drink bottle is read so that it can be refused by name. */
export type ContainerWord = Container | "drink";

/** The slot `{container}`. Common usage, no source. */
export const readContainer = phrases<ContainerWord>([
  ["glass", "glass, glass bottle, brown glass, brown glass bottle, amber glass, glass jar"],
  ["plastic", "plastic, plastic bottle, brown plastic bottle, polyethylene, canister, jerrycan"],
  ["collapsing", "collapsing, collapsing bottle, collapsible, collapsible bottle, accordion"],
  ["collapsing", "accordion bottle, concertina, concertina bottle, squeeze bottle, bag, pouch"],
  ["drink", "drink bottle, drinks bottle, drinking bottle, cola bottle, coke bottle, soda bottle"],
  ["drink", "water bottle, lemonade bottle, juice bottle, milk bottle, beer bottle, wine bottle"],
  ["drink", "squash bottle, cycling bottle, bike bottle, sports bottle, soft drink bottle"],
]);
