import { type BottleLook, failedTest } from "../domain/chemistry/look.ts";
import { filmUnits } from "../domain/film/load.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { type Units, units } from "../domain/units/quantity.ts";
import { plain, showUnits } from "../domain/units/show.ts";
import { type Json, type Reply, refuse } from "../reply/reply.ts";
import { toJson } from "./define-command.ts";

/** Answers already given to what a guard asked: an explicit yes lets a run go on, and is logged. */
export type Insisted = {
  readonly beyond?: boolean | undefined;
  readonly untested?: boolean | undefined;
};

const yesNo = [
  { word: "yes", value: true },
  { word: "no", value: false },
];

/** Film of other open runs that will still go through a bottle: it has a claim on what is left. */
function promised(bench: Bench, bottle: string): number {
  return liveRuns(bench)
    .filter(
      (run) =>
        run.stages.some((stage) => stage.bottle === bottle && stage.skipped !== true) &&
        !run.counted.some((entry) => entry.bottle === bottle),
    )
    .reduce((sum, run) => sum + filmUnits(run.film), 0);
}

/** The same look with what other open runs will take already taken off. */
export function lessPromised(bench: Bench, look: BottleLook): BottleLook {
  const by = promised(bench, look.bottle.id);
  if (by === 0 || look.unitsLeft === undefined) return look;
  return { ...look, unitsLeft: units(Math.max(0, look.unitsLeft - by)) };
}

/**
 * What stands against pouring these bottles for this film: capacity first, then a clip test where
 * the state is unknown or past its limit. `notes` go into the run's record.
 */
export function guardBottles(
  looks: readonly BottleLook[],
  load: Units,
  beyondTable: boolean,
  wanted: Readonly<Record<string, unknown>>,
  insisted: Insisted,
): { readonly reply: Reply } | { readonly notes: readonly string[] } {
  const notes: string[] = [];
  const worn = looks.filter(
    ({ unitsLeft }) =>
      unitsLeft !== undefined && (load > 0 ? load > unitsLeft + 1e-6 : unitsLeft <= 1e-6),
  );
  if (worn.length > 0 || beyondTable) {
    const what = worn.map(wornWords).join("; ");
    if (insisted.beyond !== true) return { reply: beyond(worn, load, wanted) };
    notes.push(
      `Beyond capacity, by an explicit yes: ${what === "" ? "the re-use table ends before the last film of this tank" : what}; this tank ${showUnits(load)}.`,
    );
  }
  const doubtful = looks.filter(({ doubts }) => doubts.length > 0);
  if (doubtful.length > 0) {
    const bad = doubtful.filter(({ bottle }) => failedTest(bottle) || isFoul(bottle));
    if (insisted.untested !== true) {
      return { reply: bad.length > 0 ? badBottle(bad, wanted) : clipFirst(doubtful, wanted) };
    }
    notes.push(`Without a clip test, by an explicit yes: ${doubtful.map(doubtWords).join("; ")}.`);
  }
  return { notes };
}

const wornWords = ({ bottle, capacity, unitsLeft }: BottleLook): string =>
  `${bottle.name} has done ${plain(bottle.used, 2)} of ${plain(capacity?.value ?? 0, 2)}, ${plain(unitsLeft ?? 0, 2)} left`;

const isFoul = ({ suspect }: BottleLook["bottle"]): boolean => suspect?.contaminated === true;

/** A test failed, or something foreign got in: no test mends that. Only trust, or a yes on record. */
function badBottle(bad: readonly BottleLook[], wanted: Readonly<Record<string, unknown>>): Reply {
  const name = bad[0]?.bottle.name ?? "it";
  const failed = bad.some(({ bottle }) => failedTest(bottle));
  return refuse(
    failed ? "failed-test" : "contaminated",
    `STOP. ${bad.map(doubtWords).join("; ")}. Film in it may be lost. Take another bottle, or mix fresh.`,
    {
      say: `STOP. ${name} ${failed ? "failed its test" : "is contaminated"}. Pour it all the same?`,
      lines: [
        `Sure of it after all? Say trust ${name}.`,
        "Say yes to pour it all the same; it will stand in the record.",
      ],
      facts: { guard: "clip test", bottle: name },
      ask: { command: "start", fields: toJson(wanted), slot: "untested", options: yesNo },
    },
  );
}

const doubtWords = ({ bottle, doubts }: BottleLook): string =>
  `${bottle.name}: ${doubts.join(", ")}`;

function beyond(
  worn: readonly BottleLook[],
  load: Units,
  wanted: Readonly<Record<string, unknown>>,
): Reply {
  const rows: Json[] = worn.map(({ bottle, unitsLeft }) => ({
    bottle: bottle.name,
    units_left: unitsLeft ?? 0,
  }));
  const [first] = worn;
  const title =
    first === undefined
      ? "Your sheet's re-use table ends before the last film of this tank. Put fewer in, mix fresh, or say yes to go on with it."
      : `${worn.map(wornWords).join("; ")}. This tank wants ${showUnits(load)}. Put fewer in or mix fresh.`;
  return refuse("beyond-capacity", title, {
    say:
      first === undefined
        ? "The re-use table ends here."
        : `${first.bottle.name} has not enough left for that.`,
    lines: ["Say yes to go on all the same; it will stand in the record."],
    facts: { guard: "capacity" },
    figures: {
      units: { value: load, origin: { kind: "computed", source: "film area by 80 sq in" } },
      short: {
        value: rows,
        origin: first?.capacity?.origin ?? { kind: "own log" },
      },
    },
    ask: { command: "start", fields: toJson(wanted), slot: "beyond", options: yesNo },
  });
}

function clipFirst(
  doubtful: readonly BottleLook[],
  wanted: Readonly<Record<string, unknown>>,
): Reply {
  const [first] = doubtful;
  const name = first?.bottle.name ?? "it";
  return refuse(
    "clip-test-first",
    `Clip test first. ${doubtful.map(doubtWords).join("; ")}. Say clip test ${name}: five minutes, and no picture is lost.`,
    {
      say: `Clip test ${name} first. Say clip test ${name}.`,
      lines: ["Say yes to pour untested all the same; it will stand in the record."],
      facts: { guard: "clip test", bottle: name },
      ask: { command: "start", fields: toJson(wanted), slot: "untested", options: yesNo },
    },
  );
}

export const guardValues: Readonly<Record<string, string>> = {
  guard: "capacity or clip test: what stands against the start",
  short: "bottles with too little left: bottle, units_left",
  bottle: "the bottle a clip test is asked for",
};
