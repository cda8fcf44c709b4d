import { showFilm } from "../domain/film/load.ts";
import { showPush } from "../domain/film/roll.ts";
import { factsOf } from "../domain/log/run-facts.ts";
import { peopleOf } from "../domain/session/people-of.ts";
import type { Run } from "../domain/session/run.ts";
import { clockMinute, dateOf, isoInstant, showDate } from "../domain/timing/clock-text.ts";
import type { Json } from "../reply/reply.ts";
import { filmJson } from "./film-load.ts";
import { faultWord } from "./filter-words.ts";

/** So many are named; of more it is said how many. */
const NAMED = 10;
/** So many deviations stand in the line of a run. */
const FAULTS = 2;

/** "run 12" for the id "run-12": what "show run 12" takes. */
export const runNumber = ({ id }: Pick<Run, "id">): string => id.replace("-", " ");

/** One found run in one line. */
export function foundLine(run: Run, zone: string): string {
  const { plannedAt, tank, title, film, push, rehearsal, ending } = run;
  const faults = factsOf(run).faults.map(({ bath, fault }) =>
    faultWord({ kind: "fault", fault, bath }),
  );
  const more = faults.length - FAULTS;
  return [
    `${showDate(dateOf(plannedAt, zone))}, ${clockMinute(plannedAt, zone)}, ${tank}: ${title}`,
    ...(push === undefined || push === 0 ? [] : [showPush(push)]),
    film.length === 0 ? "film not named" : showFilm(film),
    ...(rehearsal === undefined ? [] : ["rehearsal"]),
    ...(ending === "stopped" ? ["stopped"] : []),
    ...faults.slice(0, FAULTS),
    ...(more > 0 ? [`${more} more deviation${more === 1 ? "" : "s"}`] : []),
    runNumber(run),
  ].join("; ");
}

/** Found runs, the latest first, as lines. */
export function foundLines(runs: readonly Run[], zone: string): readonly string[] {
  const named = runs.slice(-NAMED).toReversed();
  const more = runs.length - named.length;
  return [
    ...named.map((run) => foundLine(run, zone)),
    ...(more === 0 ? [] : [`and ${more} before these; name a month or a year to see them.`]),
  ];
}

/** The same as values: at most a hundred, the latest first. */
export const foundJson = (runs: readonly Run[]): Json =>
  runs
    .slice(-100)
    .toReversed()
    .map((run) => ({
      run: run.id,
      tank: run.tank,
      title: run.title,
      at: isoInstant(run.plannedAt),
      film: filmJson(run.film),
      push: run.push ?? 0,
      people: [...peopleOf(run)],
      deviations: factsOf(run).faults.map(({ bath, fault }) => ({ bath, fault })),
    }));

export const foundKeys =
  "one entry a run, latest first, a hundred at most: run, tank, title, at (ISO), film, push, people, deviations (bath and which: short, long, skipped, warm, cold, assumed)";
