import { contentsOf, fillNow, roleOf } from "../domain/chemistry/bottle.ts";
import type { BottleLook, BottleState } from "../domain/chemistry/look.ts";
import { showOrigin } from "../domain/origin.ts";
import { daysBetween, showAge, showDate } from "../domain/timing/clock-text.ts";
import { plain, showUnits, showVolume } from "../domain/units/show.ts";
import type { Json, Shown } from "../reply/reply.ts";

/** Both clocks of a bottle in words and as values: what `bottles` and its neighbours share. */

const daysWord = (days: number): string => `${days} day${days === 1 ? "" : "s"}`;

/** The age clock: the last good day and what it rests on; an estimate says so. */
export function dueLine(look: BottleLook): readonly string[] {
  const { due, daysLeft, keeping } = look;
  if (keeping === undefined) {
    return ["Age: no keeping time is known for it; its sheet should say."];
  }
  if (due === undefined || daysLeft === undefined) return [];
  const left = daysLeft < 0 ? `${daysWord(-daysLeft)} over` : `${daysWord(daysLeft)} left`;
  const sheet = keeping.origin.kind === "sheet" || keeping.origin.kind === "invented";
  const estimate =
    sheet && (!keeping.estimated || fillNow(look.bottle) === "full") && fullSoFar(look)
      ? `[${showOrigin(keeping.origin)}]`
      : sheet
        ? `[estimate: ${showOrigin(keeping.origin)}, shortened for the air in it]`
        : `[estimate, cautious end: ${showOrigin(keeping.origin)}]`;
  return [`Age: good to ${showDate(due)}, ${left} ${estimate}`];
}

const fullSoFar = ({ bottle }: BottleLook): boolean =>
  (bottle.fills ?? []).every(({ fill }) => fill === "full");

/** The film clock: what it has done, what it can still take. */
export function filmLine(look: BottleLook): readonly string[] {
  const { bottle, capacity, unitsLeft } = look;
  if (roleOf(bottle) !== "working") return [];
  if (capacity === undefined || unitsLeft === undefined) {
    return [`Film: ${showUnits(bottle.used)} done; no capacity is known, its sheet should say.`];
  }
  return [
    `Film: ${plain(bottle.used, 2)} of ${showUnits(capacity.value)} done, ${plain(unitsLeft, 2)} left${lost(look)} [${capacity.estimated ? "estimate: " : ""}${showOrigin(capacity.origin)}]`,
  ];
}

/** A bottle that lost some of its solution can do less film with the rest. */
const lost = ({ bottle }: BottleLook): string => {
  const there = contentsOf(bottle) + (bottle.out ?? 0);
  return there < bottle.volume - 1
    ? ` in the ${showVolume(contentsOf(bottle))} of it that are left`
    : "";
};

/** How full, how kept, where. */
export function standsLine({ bottle }: BottleLook): string {
  const out = bottle.out === undefined ? "" : `, ${showVolume(bottle.out)} out`;
  const kind = bottle.container === undefined ? "" : `, ${bottle.container}`;
  const place = bottle.place === undefined ? "" : `, stands ${bottle.place}`;
  return `Holds ${showVolume(contentsOf(bottle))}, ${fillWords[fillNow(bottle)]}${out}${kind}${place}`;
}

export const fillWords = {
  full: "full",
  "some air": "some air",
  half: "half full",
  less: "less than half",
} as const;

/** How old it is; "fresh" is not said of a bottle whose limits nobody knows. */
export function ageWords({ bottle, state }: BottleLook, today: string): string {
  const days = daysBetween(bottle.mixedOn, today);
  return days === 0 && state === "no limit known" ? "put up today" : showAge(days);
}

/** Which clock runs out first, in a few words; nothing where neither is known. */
export function governsWords(look: BottleLook): string {
  const { governs, daysLeft, unitsLeft } = look;
  if (governs === "age" && daysLeft !== undefined) {
    return daysLeft < 0
      ? `age governs, ${daysWord(-daysLeft)} over`
      : `age governs, ${daysWord(daysLeft)} left`;
  }
  if (governs === "film" && unitsLeft !== undefined) {
    return `film governs, ${showUnits(unitsLeft)} left`;
  }
  return "no limit known";
}

const stateWords: Readonly<Record<BottleState, string>> = {
  fresh: "fresh",
  "in use": "in use",
  "near limit": "NEAR ITS LIMIT",
  "past limit": "PAST ITS LIMIT",
  suspect: "SUSPECT",
  retired: "retired",
  "no limit known": "no limit known",
};

/** The state, with a test that holds for today where it is past its limit. */
export const stateWord = ({ state, tested }: BottleLook): string =>
  state === "past limit" && tested !== undefined
    ? `${stateWords[state]}, tested`
    : stateWords[state];

/** Both clocks of a bottle on one line, the one that runs out first marked. */
export function clocksLine(look: BottleLook): string {
  const { due, daysLeft, unitsLeft, governs } = look;
  const mark = (clock: BottleLook["governs"]): string => (governs === clock ? " (governs)" : "");
  const age =
    due === undefined || daysLeft === undefined
      ? "age: no limit known"
      : `age: good to ${showDate(due)}, ${daysLeft < 0 ? `${daysWord(-daysLeft)} over` : `${daysWord(daysLeft)} left`}${mark("age")}`;
  if (roleOf(look.bottle) !== "working") return age;
  const film =
    unitsLeft === undefined
      ? "film: no limit known"
      : `film: ${showUnits(unitsLeft)} left${mark("film")}`;
  return `${age}; ${film}`;
}

/** What stands against film in it, and what to do: a test does not settle what got in. */
export function doubtLine({ bottle, doubts }: BottleLook): readonly string[] {
  if (doubts.length === 0) return [];
  const why = doubts.join("; ");
  return bottle.suspect?.contaminated === true
    ? [`No film in it, and no test proves it clean: ${why}. Say retire ${bottle.name}.`]
    : [`Clip test before film: ${why}. Say clip test ${bottle.name}.`];
}

/** A test that was passed and still holds, and what it does not settle. */
export const testedLine = ({ tested, unproven }: BottleLook): readonly string[] =>
  tested === undefined || unproven.length === 0
    ? []
    : [`Tested ${showDate(tested)}: good for today; ${unproven.join("; ")}.`];

/** One bottle as an entry of `values.bottles`. */
export const lookJson = (look: BottleLook): { readonly [key: string]: Json } => ({
  state: look.state,
  tested: look.tested ?? null,
  governs: look.governs ?? null,
  due: look.due ?? null,
  days_left: look.daysLeft ?? null,
  units_left: look.unitsLeft ?? null,
  age_share: look.age ?? null,
  contents_ml: contentsOf(look.bottle),
  fill: fillNow(look.bottle),
});

/** The two clocks as figures with their origins; a figure that is not known is left out. */
export function stateFigures(look: BottleLook): Record<string, Shown> {
  const figures: Record<string, Shown> = {};
  const { keeping, due, daysLeft, age, capacity, unitsLeft } = look;
  if (keeping !== undefined && due !== undefined && daysLeft !== undefined && age !== undefined) {
    figures.due = { value: due, origin: keeping.origin };
    figures.days_left = { value: daysLeft, origin: keeping.origin };
    figures.age_share = {
      value: age,
      origin: { kind: "computed", source: "days at each fill level by the keeping time there" },
    };
  }
  if (capacity !== undefined && unitsLeft !== undefined) {
    figures.capacity_units = { value: capacity.value, origin: capacity.origin };
    figures.units_left = {
      value: unitsLeft,
      origin: { kind: "computed", source: "capacity less film done, for what is in it" },
    };
  }
  return figures;
}

export const lookValues: Readonly<Record<string, string>> = {
  due: "last day inside its keeping time, ISO date; missing when none is known",
  days_left: "days until then, negative when past",
  age_share: "share of its keeping time used, 1 is the end",
  capacity_units: "film it can do in all, units of 80 sq in",
  units_left: "film it can still do, units of 80 sq in",
  state: "fresh, in use, near limit, past limit, suspect, retired or no limit known",
  governs: "age or film: the clock that runs out first; null when none is known",
};
