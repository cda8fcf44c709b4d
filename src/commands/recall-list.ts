import { filmUnits, showFilm } from "../domain/film/load.ts";
import { callRoll } from "../domain/film/roll.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Culprit, type TouchedRun, touchedRuns } from "../domain/session/suspicion.ts";
import { clockMinute, dateOf, isoInstant, showDate } from "../domain/timing/clock-text.ts";
import { type Instant, units } from "../domain/units/quantity.ts";
import { showUnits } from "../domain/units/show.ts";
import type { Json, Shown } from "../reply/reply.ts";
import { filmJson } from "./film-load.ts";

/** Said once, behind the lists. */
export const LOOK_AT_THEM = "Look at these films: dry, on a light table, edges first.";

/** Words in front of "thermometer" that are no name for it. */
const unnamed: ReadonlySet<string> = new Set(["the", "my", "our", "a", ""]);
export const isUnnamed = (thermometer: string): boolean => unnamed.has(thermometer.toLowerCase());

/** Runs a culprit touched, and the rolls that went through them. */
export type Recall = {
  readonly runs: readonly TouchedRun[];
  readonly rolls: readonly string[];
  /** When what spoilt the bottle got in, where that is known, and the runs that were over by then. */
  readonly from?: Instant | undefined;
  readonly before: number;
};

export function recallFor(bench: Bench, culprit: Culprit): Recall {
  const met = touchedRuns(bench, culprit);
  const runs = met.filter(({ before }) => !before);
  const from = culprit.kind === "bottle" ? bench.bottles[culprit.id]?.suspect?.from : undefined;
  const ids = new Set(runs.map(({ run }) => run));
  const rolls = Object.values(bench.rolls)
    .filter(({ doneIn }) => doneIn !== undefined && ids.has(doneIn))
    .map(callRoll);
  return { runs, rolls, from, before: met.length - runs.length };
}

const moment = (at: Instant, zone: string): string =>
  `${showDate(dateOf(at, zone))}, ${clockMinute(at, zone)}`;

/** The list as a person reads it, and as values. */
export function showRecall(
  bench: Bench,
  { runs, rolls, from, before }: Recall,
): {
  readonly lines: readonly string[];
  readonly say: string;
  readonly figures: Record<string, Shown>;
  readonly facts: Record<string, Json>;
} {
  const load = units(runs.reduce((sum, { touched }) => sum + filmUnits(touched.film), 0));
  const rows: Json[] = runs.map(({ run, tank, title, plannedAt, touched }) => ({
    run,
    tank,
    title,
    at: isoInstant(plannedAt),
    film: filmJson(touched.film),
  }));
  const lines = runs.map(
    ({ tank, title, plannedAt, touched, unsure }) =>
      `${showDate(dateOf(plannedAt, bench.zone))}, ${clockMinute(plannedAt, bench.zone)}, ${tank}, ${title}: ${touched.film.length === 0 ? "film not named" : showFilm(touched.film)}${unsure ? " (thermometer not named, counted in)" : ""}`,
  );
  const since = from === undefined ? "" : ` since ${moment(from, bench.zone)}`;
  const clean =
    from === undefined || before === 0
      ? []
      : [
          `${before} earlier run${before === 1 ? " was" : "s were"} out before and not touched, unless it happened earlier: then tell me again and say when, like an hour ago.`,
        ];
  return {
    lines:
      runs.length === 0
        ? [`It touched no run that I know of${since}.`, ...clean]
        : [
            `Touched ${runs.length} run${runs.length === 1 ? "" : "s"}${since}, ${showUnits(load)}:`,
            ...lines.map((line) => `- ${line}`),
            ...(rolls.length === 0 ? [] : [`Rolls: ${rolls.join(", ")}.`]),
            ...clean,
          ],
    say:
      runs.length === 0
        ? "It touched no run."
        : `It touched ${runs.length} run${runs.length === 1 ? "" : "s"}.`,
    figures: {
      runs: { value: rows, origin: { kind: "own log" } },
      units: { value: load, origin: { kind: "own log" } },
    },
    facts: { rolls: [...rolls] },
  };
}
