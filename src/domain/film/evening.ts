import type { Millilitres, Units } from "../units/quantity.ts";
import type { FilmFormat } from "./load.ts";
import type { ProcessMark } from "./process-mark.ts";
import type { Tank } from "./tank.ts";

/** A roll as the planner looks at it. */
export type EveningRoll = {
  readonly id: string;
  readonly format: FilmFormat;
  readonly units: Units;
  readonly marked: ProcessMark | undefined;
  /** Stops. */
  readonly push: number;
  readonly important: boolean;
  /** The film itself is in doubt: it cannot serve to test a bath. */
  readonly doubtful: boolean;
  readonly backing: boolean;
};

/** What there is for one process: the baths of one set of bottles, taken together. */
export type Supply = {
  readonly process: ProcessMark;
  /** One load: setting up, all stages, their pours. */
  readonly minutes: number;
  /** Loads of these pushes, in stops, where a rule is known: minutes instead of the above. */
  readonly pushed?: ReadonlyMap<number, number> | undefined;
  /** Film the bath that runs out first can still take; missing: not known, not limited. */
  readonly unitsLeft: Units | undefined;
  /** The smallest of its bottles; missing: not known. */
  readonly volume: Millilitres | undefined;
  /** Unknown date, past a limit, or suspect: it is tried on a roll that does not matter first. */
  readonly doubtful: boolean;
};

/** How long a load takes at a push. */
export const loadMinutes = (supply: Supply, push: number): number =>
  supply.pushed?.get(push) ?? supply.minutes;

export type EveningTank = Pick<Tank, "name" | "layouts">;

export type Evening = {
  /** In the order they were added: of rolls that are alike, the earlier one goes first. */
  readonly rolls: readonly EveningRoll[];
  readonly tanks: readonly EveningTank[];
  readonly supplies: readonly Supply[];
  /** Minutes until the end. */
  readonly minutes: number;
  /** Reels of a tank dry this long before they take film again, minutes. */
  readonly drying: number;
};

export type PlannedLoad = {
  readonly process: ProcessMark;
  readonly push: number;
  readonly tank: string;
  readonly rolls: readonly string[];
  /** Minutes after the start of the evening. */
  readonly start: number;
  readonly end: number;
  /** The part of the wait before it that reels need to dry, minutes. */
  readonly waited: number;
  /** By the reels that hold film, mL. */
  readonly volume: Millilitres;
  readonly units: Units;
  readonly unitsAfter: Units | undefined;
  /** The doubtful bath is tried on this load: look at its film before the next one. */
  readonly test: boolean;
};

/** Why a roll is not in the plan. */
export type LeftOut =
  | { readonly kind: "marking-not-stated"; readonly roll: string }
  | { readonly kind: "silver-in-colour"; readonly roll: string }
  | { readonly kind: "black-backed"; readonly roll: string }
  | { readonly kind: "no-chemistry"; readonly roll: string; readonly process: ProcessMark }
  | { readonly kind: "no-reel"; readonly roll: string; readonly format: FilmFormat }
  | {
      readonly kind: "too-little-solution";
      readonly roll: string;
      readonly volume: Millilitres;
      readonly held: Millilitres;
    }
  | { readonly kind: "no-capacity"; readonly roll: string; readonly left: Units }
  | { readonly kind: "no-time"; readonly roll: string; readonly minutes: number }
  /** A load of its own, for its push is another, and for that there is no time. */
  | { readonly kind: "mixed-push"; readonly roll: string; readonly push: number };

export type EveningPlan = {
  readonly loads: readonly PlannedLoad[];
  readonly leftOut: readonly LeftOut[];
  readonly minutes: number;
  /** Processes whose doubtful bath no roll can test: a clip of film first. */
  readonly clipTests: readonly ProcessMark[];
  /** No plan is better by the measure of `compareScores`. */
  readonly optimal: boolean;
};

/** What a plan is worth. */
export type Score = {
  readonly important: number;
  readonly rolls: number;
  readonly units: number;
  readonly minutes: number;
};

const SAME = 1e-9;

/**
 * The measure of a plan, first difference decides: most important rolls done, then most rolls,
 * then most film, then the earliest end. Below zero: `a` is better. Plans equal in all four are
 * told apart by the order in which rolls were added.
 */
export function compareScores(a: Score, b: Score): number {
  if (a.important !== b.important) return b.important - a.important;
  if (a.rolls !== b.rolls) return b.rolls - a.rolls;
  if (Math.abs(a.units - b.units) > SAME) return b.units - a.units;
  if (Math.abs(a.minutes - b.minutes) > SAME) return a.minutes - b.minutes;
  return 0;
}
