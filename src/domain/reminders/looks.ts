import type { Bench } from "../session/bench.ts";

/** What the daily look needs to know of one bottle on one day. */
export type DailyBottle = {
  readonly id: string;
  readonly name: string;
  readonly bath: string;
  /** The last day inside its limit, ISO, as it stands; missing: no keeping time is known. */
  readonly dueOn?: string | undefined;
  /** Age as a share of its keeping time: 1 is the limit. */
  readonly ageShare: number;
  /** Film done as a share of its capacity; missing: no capacity is known. */
  readonly unitsShare?: number | undefined;
  /** Units of 80 sq in. */
  readonly unitsLeft?: number | undefined;
  /** A concentrate or stock of which little is left, in words: "120 mL left". */
  readonly low?: string | undefined;
};

/** What it needs to know of film that waits. */
export type DailyRoll = {
  readonly id: string;
  readonly name: string;
  /** ISO date since when; missing: not known, never mentioned. */
  readonly since?: string | undefined;
};

/** What the shell knows how to read off a bench. Pure functions of bench and day. */
export type Looks = {
  readonly bottles: (bench: Bench, day: string) => readonly DailyBottle[];
  readonly rolls: (bench: Bench) => readonly DailyRoll[];
};

/** Nothing to be seen: reminders alone. */
export const noLooks: Looks = { bottles: () => [], rolls: () => [] };
