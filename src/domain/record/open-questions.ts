import { isDeveloper } from "../process/sheet.ts";
import type { Bench } from "../session/bench.ts";
import { liveRuns } from "../session/find-run.ts";
import { standing } from "../session/hear.ts";
import type { Run } from "../session/run.ts";
import { type Instant, later, secondsBetween } from "../units/quantity.ts";

export type EndOf = "start" | "end";

/** A reading this near the start or the end of a bath speaks for it, as a share of its time: our own bound. */
const NEAR = 0.25;

/** The developer of a run that was poured, by its place among the stages. */
export function developerOf(run: Run): number | undefined {
  const index = run.stages.findIndex(({ kind, inAt }) => isDeveloper(kind) && inAt !== undefined);
  return index < 0 ? undefined : index;
}

/** At which ends of its time the developer was not read. */
export function unreadEnds(run: Run): readonly EndOf[] {
  const index = developerOf(run);
  const stage = index === undefined ? undefined : run.stages[index];
  if (stage?.inAt === undefined || stage.temperature === undefined) return [];
  const { inAt, outAt, time } = stage;
  const end = outAt ?? later(inAt, time);
  const near = Math.max(30, secondsBetween(inAt, end) * NEAR);
  const taken = run.readings.filter((reading) => reading.stage === index);
  const ends: EndOf[] = [];
  if (!taken.some(({ at }) => at <= later(inAt, near))) ends.push("start");
  if (!taken.some(({ at }) => at >= later(end, -near))) ends.push("end");
  return ends;
}

/** A run whose end is worth a question: film was really in a bath, and it is over. */
const isAsked = (run: Run): boolean =>
  run.endedAt !== undefined &&
  run.rehearsal === undefined &&
  run.nothingIn !== true &&
  run.stages.some(({ inAt }) => inAt !== undefined);

export type OpenQuestion =
  | { readonly kind: "temperatures"; readonly ends: readonly EndOf[] }
  | { readonly kind: "different" };

/** The next of the two questions after a run; undefined once both are answered or put off. */
export function openQuestion(run: Run): OpenQuestion | undefined {
  if (!isAsked(run)) return undefined;
  const ends = unreadEnds(run);
  // Of a run that was given up only the reason matters.
  if (ends.length > 0 && run.after?.temperatures === undefined && run.ending !== "stopped") {
    return { kind: "temperatures", ends };
  }
  return run.after?.different === undefined ? { kind: "different" } : undefined;
}

/** Is film in a bath, or being poured on, in any tank? Then nobody is asked anything. */
export const anyTankWet = (bench: Bench, now: Instant): boolean =>
  liveRuns(bench).some((run) => {
    const { kind } = standing(run, now);
    return kind === "in" || kind === "pouring" || run.stages.some(({ inAt }) => inAt !== undefined);
  });

/** Ended runs are asked about together for this long, s: an evening's. */
const EVENING = 4 * 3600;

/**
 * Other runs of the evening that nobody has said anything different about. Why one was given up is
 * asked about that one alone.
 */
export const unasked = (bench: Bench, run: Run): readonly Run[] =>
  Object.values(run.ending === "stopped" ? {} : bench.runs).filter(
    (other) =>
      other.id !== run.id &&
      isAsked(other) &&
      other.after?.different === undefined &&
      Math.abs(secondsBetween(other.endedAt ?? other.plannedAt, run.endedAt ?? run.plannedAt)) <
        EVENING,
  );
