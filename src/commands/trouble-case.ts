import { isDeveloper } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { type Standing, standing } from "../domain/session/hear.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { calledTank } from "./run-lines.ts";

type InBath = Extract<Standing, { kind: "in" }> & { readonly called: string };

/** Film that is in a bath now, by the clock, with the bath it is in. */
const inBaths = (bench: Bench, now: Instant): readonly InBath[] =>
  liveRuns(bench).flatMap((run) => {
    const at = standing(run, now);
    return at.kind === "in" ? [{ ...at, called: calledTank(run) }] : [];
  });

/** Is a clock running over film? */
export const isFilmWet = (bench: Bench, now: Instant): boolean => inBaths(bench, now).length > 0;

/** Before or after the developer, where one tank's film is in a bath and no other's. */
export function bathByClock(
  bench: Bench,
  now: Instant,
): "developer" | "after developer" | undefined {
  const [only, ...more] = inBaths(bench, now);
  if (only === undefined || more.length > 0) return undefined;
  return isDeveloper(only.stage.kind) ? "developer" : "after developer";
}

/** The last part of a bath that counts as near its end (own bound, no source). */
const END = 0.2;

/**
 * Which verdict a case calls for. How much light cost depends on how far the developer had got;
 * where the clock knows that it is said, and where it does not the verdict is of both.
 *
 * @returns the verdict's name in the table of rescues, and lines that say what it went by
 */
export function troubleCase(
  bench: Bench,
  rescue: string,
  detail: string,
  now: Instant,
): { readonly verdict: string; readonly lines: readonly string[] } {
  if (rescue !== "light" || detail !== "developer") return { verdict: detail, lines: [] };
  const developing = inBaths(bench, now).filter(({ stage }) => isDeveloper(stage.kind));
  const [only] = developing;
  if (only === undefined || developing.length > 1) return { verdict: detail, lines: [] };
  const { called, stage, gone, left } = only;
  const when = left <= stage.time * END ? "near the end" : "early";
  return {
    verdict: `${detail}, ${when}`,
    lines: [
      `${called}: ${showDuration(gone)} of ${showDuration(stage.time)} in ${stage.bath} had gone by the clock.`,
    ],
  };
}
