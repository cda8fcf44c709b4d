import { commonPractice, type Origin } from "../origin.ts";
import { type Seconds, seconds } from "../units/quantity.ts";
import { type Bath, isDeveloper, isWater } from "./sheet.ts";

/** How film is moved: a tank turned over, a tank with a stick, a turning drum, a rack that is lifted. */
export const movements = ["inversion", "stick", "rotary", "rack"] as const;
export type Movement = (typeof movements)[number];

const words: Readonly<Record<Movement, string>> = {
  inversion: "turned over by hand",
  stick: "turned by its stick",
  rotary: "turns all the time",
  rack: "a rack that is lifted",
};

/** How a container is moved, as it stands in a list. */
export const showMovement = (movement: Movement): string => words[movement];

/** A stage's agitation. All lengths in s. */
export type StageAgitation = {
  /** Continuous from the start of the time. */
  readonly initial: Seconds;
  /** Still after `initial`, before the first later beat; missing: the next multiple of `every`. */
  readonly rest?: Seconds | undefined;
  /** Start of one beat to the start of the next; missing: no later beats. */
  readonly every?: Seconds | undefined;
  readonly each?: Seconds | undefined;
  readonly origin: Origin;
};

const army = (paragraph: string): Origin => ({
  kind: "published",
  source: `SS0514 Basic Color Photography, p. 2-13, para. ${paragraph} (read)`,
});

/** Timer at tank full, 30 s of inversions, then 5 s every minute. */
const BLACK_AND_WHITE: StageAgitation = {
  initial: seconds(30),
  every: seconds(60),
  each: seconds(5),
  origin: {
    kind: "published",
    source: "NAVEDTRA 14209, Photography (Basic), small-tank steps 3-5 (read)",
  },
};

/** First movement 4 to 5 s with a tap, 10 s of rest, then a lift of 2 to 3 s every 10 s. */
const RACK_DEVELOPER: StageAgitation = {
  initial: seconds(4.5),
  rest: seconds(10),
  every: seconds(10),
  each: seconds(2.5),
  origin: army("a(1)-(2)"),
};

/** One lift at the start, then four a minute. */
const RACK_OTHER: StageAgitation = {
  initial: seconds(2.5),
  every: seconds(15),
  each: seconds(2.5),
  origin: army("a(3)-(5)"),
};

/** A running wash needs the first lift alone. */
const RACK_WASH: StageAgitation = { initial: seconds(2.5), origin: army("a(3)-(5)") };

/** A drum turns all the time it is wet. */
const turning = (time: Seconds): StageAgitation => ({ initial: time, origin: commonPractice });

/**
 * How a bath is agitated in a container. A sheet speaks of tanks that are turned over, so its own
 * cadence is for inversion, and for a stick in the same rhythm; a drum turns from start to end; a
 * rack of sheet film is lifted.
 *
 * @param process  the sheet's: black and white has a published cadence of its own where the sheet
 *                 names none
 * @param time     of the stage, s
 * @returns undefined where neither the sheet nor a publication says anything
 */
export function agitationFor(
  bath: Bath,
  movement: Movement,
  time: Seconds,
  process?: string,
): StageAgitation | undefined {
  switch (movement) {
    case "rotary":
      return turning(time);
    case "rack":
      if (isWater(bath.kind)) return RACK_WASH;
      return isDeveloper(bath.kind) ? RACK_DEVELOPER : RACK_OTHER;
    case "inversion":
    case "stick":
      return ownCadence(bath) ?? (isOldDeveloper(bath, process) ? BLACK_AND_WHITE : undefined);
  }
}

const isOldDeveloper = (bath: Bath, process: string | undefined): boolean =>
  process === "black-and-white" && isDeveloper(bath.kind);

function ownCadence({ agitation }: Bath): StageAgitation | undefined {
  if (agitation === undefined) return undefined;
  const { initial, every, each } = agitation;
  return {
    initial: initial.value,
    ...(every === undefined ? {} : { every: every.value }),
    ...(each === undefined ? {} : { each: each.value }),
    // The weaker of the two origins is the one that is shown.
    origin: every?.origin ?? initial.origin,
  };
}

/** What turns from the start of a time to its end goes on turning where the time becomes another. */
export const throughout = <A extends StageAgitation>(
  agitation: A | undefined,
  was: Seconds,
  is: Seconds,
): A | undefined =>
  agitation === undefined || agitation.every !== undefined || agitation.initial < was
    ? agitation
    : { ...agitation, initial: is };

/** A day in a bath agitated every minute has no more. */
const MOST_BEATS = 1500;

/**
 * Offsets at which a beat begins, s: 0 for the first movement, then every later one that is over
 * before `until`, where pouring out begins.
 */
export function beatOffsets(agitation: StageAgitation, until: Seconds): readonly Seconds[] {
  const { initial, rest, every, each } = agitation;
  const offsets: Seconds[] = [seconds(0)];
  if (every === undefined || every <= 0) return offsets;
  const done = Math.floor(initial / every) + 1;
  for (let n = 0; offsets.length < MOST_BEATS; n += 1) {
    const offset = rest === undefined ? (done + n) * every : initial + rest + n * every;
    if (offset >= until || offset + (each ?? 0) > until) break;
    offsets.push(seconds(offset));
  }
  return offsets;
}
