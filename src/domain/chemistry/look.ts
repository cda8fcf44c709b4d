import { type Bath, bathsCalled, type Sheet } from "../process/sheet.ts";
import { dayNumber } from "../timing/day-number.ts";
import { type Units, units } from "../units/quantity.ts";
import { ageShare, dueOn, type Keeping } from "./age.ts";
import { type Bottle, contentsOf, roleOf, workDone } from "./bottle.ts";
import { type Capacity, type CapacityRow, capacityOf } from "./capacity.ts";
import { defaultKeeping, type KeepingRow, keepingOf } from "./keeping.ts";

/** What a look at a bottle needs from outside: the bench's sheets and our defaults. */
export type Shelf = {
  readonly sheetOf: (bottle: Bottle) => Sheet | undefined;
  readonly keeping: readonly KeepingRow[];
  readonly capacity: readonly CapacityRow[];
};

export const bottleStates = [
  "fresh",
  "in use",
  "near limit",
  "past limit",
  "suspect",
  "retired",
  "no limit known",
] as const;
export type BottleState = (typeof bottleStates)[number];

/** Which of the two clocks runs out first. */
export type Governing = "age" | "film";

/** A bottle as it stands on a day: both clocks, which governs, and what is doubtful. */
export type BottleLook = {
  readonly bottle: Bottle;
  readonly bath: Bath | undefined;
  readonly sheet: Sheet | undefined;
  readonly keeping: Keeping | undefined;
  /** Share of its keeping time used; 1 is the end. */
  readonly age: number | undefined;
  /** Last day inside the keeping time, ISO. */
  readonly due: string | undefined;
  /** Until `due`; negative when it is past. */
  readonly daysLeft: number | undefined;
  /** Film this bottle can take in all, with where the figure comes from. */
  readonly capacity: Capacity | undefined;
  readonly unitsLeft: Units | undefined;
  /** Share of its capacity used. */
  readonly worn: number | undefined;
  readonly governs: Governing | undefined;
  readonly state: BottleState;
  /** Why a clip test is wanted before film goes in; empty when it is not. */
  readonly doubts: readonly string[];
  /**
   * What a passed test does not settle: its date is not known, or it is past its keeping time. The
   * test holds for the day; a plan still tries such a bath on a roll that does not matter.
   */
  readonly unproven: readonly string[];
  /** The day of its last test, ISO, while that is a pass that still holds. */
  readonly tested: string | undefined;
};

/** From this share on a limit is near: the first of two reminders falls here. */
const NEAR = 0.75;

/** The one bath of its sheet that a bottle holds. */
export const bathIn = (bottle: Bottle, sheet: Sheet | undefined): Bath | undefined =>
  sheet === undefined ? undefined : bathsCalled(sheet, bottle.bath)[0];

/** Film it can still take. What was lost of the solution is lost to film as well. */
export function unitsLeft(
  bottle: Bottle,
  capacity: Pick<Capacity, "value"> | undefined,
): Units | undefined {
  if (capacity === undefined) return undefined;
  const here = contentsOf(bottle) + (bottle.out ?? 0);
  const there = bottle.volume > 0 ? Math.min(1, here / bottle.volume) : 0;
  return units(Math.max(0, (capacity.value - workDone(bottle)) * there));
}

/** Share of a capacity used; of none all is used, whatever was done. */
const wornBy = (done: Units, capacity: Units): number => (capacity > 0 ? done / capacity : 1);

/** Which clock runs out first: the one that has used the larger share. A tie goes to age. */
export function governs(age: number | undefined, worn: number | undefined): Governing | undefined {
  if (age === undefined) return worn === undefined ? undefined : "film";
  return worn !== undefined && worn > age ? "film" : "age";
}

/** The latest clip test. */
const lastTest = (bottle: Bottle) => bottle.tests?.at(-1);

/** Did its latest test fail, without anybody having said since that the bottle is trusted? */
export function failedTest(bottle: Bottle): boolean {
  const test = lastTest(bottle);
  return test?.passed === false && test.overruled !== true;
}

export function stateOf(
  bottle: Bottle,
  age: number | undefined,
  worn: number | undefined,
): BottleState {
  if (bottle.retiredOn !== undefined) return "retired";
  if (bottle.suspect !== undefined || failedTest(bottle)) return "suspect";
  const most = Math.max(age ?? 0, worn ?? 0);
  if ((age ?? 0) > 1 + 1e-9 || (worn ?? 0) >= 1 - 1e-9) return "past limit";
  if (most >= NEAR - 1e-9) return "near limit";
  if (age === undefined && worn === undefined) return "no limit known";
  const untouched = bottle.used === 0 && bottle.contents === undefined;
  // Without its keeping time nobody knows whether it is fresh.
  return age !== undefined && untouched && most < 0.25 ? "fresh" : "in use";
}

/**
 * Days a passed clip test may lie back: a test tells of today, and an evening may go past midnight
 * (own rule, no source).
 */
const TEST_HOLDS = 1;

/** The day of a passed test that still holds. */
function testedOn(bottle: Bottle, today: string): string | undefined {
  const test = lastTest(bottle);
  return test?.passed === true && Math.abs(daysTo(test.on, today)) <= TEST_HOLDS
    ? test.on
    : undefined;
}

/** What no test takes away before its mark is taken off. */
const marksOn = (bottle: Bottle): readonly string[] => [
  ...(bottle.suspect === undefined ? [] : [`it is suspect: ${bottle.suspect.why}`]),
  ...(failedTest(bottle) ? ["its last clip test failed"] : []),
];

const unprovenIn = (bottle: Bottle, age: number | undefined): readonly string[] => [
  ...(bottle.dateAssumed === undefined ? [] : ["its mixing date is not known"]),
  ...((age ?? 0) > 1 + 1e-9 ? ["it is past its keeping time"] : []),
];

const daysTo = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** Looks at a bottle on a day, ISO in the bench's zone. */
export function lookAt(bottle: Bottle, shelf: Shelf, today: string): BottleLook {
  const sheet = shelf.sheetOf(bottle);
  const bath = bathIn(bottle, sheet);
  const row = defaultKeeping(
    shelf.keeping,
    bath?.kind ?? bottle.bath,
    roleOf(bottle),
    sheet?.process,
  );
  const keeping = keepingOf(roleOf(bottle) === "working" ? bath : undefined, row);
  const age = keeping === undefined ? undefined : ageShare(bottle, keeping, today);
  const due = keeping === undefined ? undefined : dueOn(bottle, keeping);
  const capacity =
    roleOf(bottle) === "working"
      ? capacityOf(bottle, bath, sheet?.process, shelf.capacity)
      : undefined;
  const left = unitsLeft(bottle, capacity);
  const worn = capacity === undefined ? undefined : wornBy(workDone(bottle), capacity.value);
  const unproven = unprovenIn(bottle, age);
  const tested = testedOn(bottle, today);
  return {
    bottle,
    bath,
    sheet,
    keeping,
    age,
    due,
    daysLeft: due === undefined ? undefined : daysTo(today, due),
    capacity,
    unitsLeft: left,
    worn,
    governs: governs(age, worn),
    state: stateOf(bottle, age, worn),
    doubts: [...marksOn(bottle), ...(tested === undefined ? unproven : [])],
    unproven,
    tested,
  };
}
