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

/** How long something takes: minutes, and other minutes for loads of these pushes, in stops. */
export type Lasting = {
  readonly minutes: number;
  readonly pushed?: ReadonlyMap<number, number> | undefined;
};

/** A bottle of one bath, and how long that bath takes from it as it stands now. */
export type EveningBottle = Lasting & {
  readonly name: string;
  /** Film it can still take; missing: not known, not limited. */
  readonly unitsLeft: Units | undefined;
  /** Missing: not known. */
  readonly volume: Millilitres | undefined;
  /** Unknown date or past a limit: it is tried on a roll that does not matter first. */
  readonly doubtful: boolean;
};

/**
 * What there is for one process: its baths, each with its bottles. A load pours from one bottle of
 * each bath. The minutes are those of a load that no bottle changes: setting up, pours, rinses.
 */
export type Supply = Lasting & {
  readonly process: ProcessMark;
  /** Bottles in the order in which they are best used up. */
  readonly baths: readonly (readonly EveningBottle[])[];
};

export const lasts = ({ pushed, minutes }: Lasting, push: number): number =>
  pushed?.get(push) ?? minutes;

/** How long a load takes at a push from these bottles, in whole minutes. */
export const loadMinutes = (
  supply: Supply,
  bottles: readonly EveningBottle[],
  push: number,
): number =>
  Math.ceil(bottles.reduce((sum, bottle) => sum + lasts(bottle, push), lasts(supply, push)) - SAME);

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
  /** One for each bath that has any. */
  readonly bottles: readonly string[];
  readonly rolls: readonly string[];
  /** Minutes after the start of the evening. */
  readonly start: number;
  readonly end: number;
  /** The part of the wait before it that reels need to dry, minutes. */
  readonly waited: number;
  /** By the reels that hold film, mL. */
  readonly volume: Millilitres;
  readonly units: Units;
  /** Of the bottle that can then take least. */
  readonly unitsAfter: Units | undefined;
  /** Doubtful bottles that are tried on this load: look at its film before the next one. */
  readonly tests: readonly string[];
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
  /** Doubtful bottles in the plan that no roll can test: a clip of film first. */
  readonly clipTests: readonly string[];
  /** No plan is better by the measure of `compareScores`. */
  readonly optimal: boolean;
};

/** What a plan is worth. */
export type Score = {
  readonly important: number;
  readonly rolls: number;
  readonly units: number;
  /** Doubtful bottles that are poured from. */
  readonly doubtful: number;
  readonly minutes: number;
};

const SAME = 1e-9;

/**
 * The measure of a plan, first difference decides: most important rolls done, then most rolls,
 * then most film, then fewest doubtful bottles, then the earliest end. Below zero: `a` is better. Plans equal in all five are
 * told apart by the order in which rolls were added.
 */
export function compareScores(a: Score, b: Score): number {
  if (a.important !== b.important) return b.important - a.important;
  if (a.rolls !== b.rolls) return b.rolls - a.rolls;
  if (Math.abs(a.units - b.units) > SAME) return b.units - a.units;
  if (a.doubtful !== b.doubtful) return a.doubtful - b.doubtful;
  if (Math.abs(a.minutes - b.minutes) > SAME) return a.minutes - b.minutes;
  return 0;
}
