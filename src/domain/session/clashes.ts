import { nextStage } from "../timing/cues.ts";
import { type Collision, collisions, type Hands, maybeMoved } from "../timing/stagger.ts";
import { type Instant, type Seconds, seconds } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import { liveRuns } from "./find-run.ts";
import { handsOn } from "./keep-apart.ts";
import { currentStage, type Run } from "./run.ts";

/** Two tanks that want one pair of hands, and neither can be moved any more. */
export type Clash = Collision & {
  /** Between the two cues, s. */
  readonly apart: Seconds;
};

/** What tells one clash from another, however its instants move. */
const nameOf = ({ one, other }: Collision): string =>
  [one, other]
    .map(({ tank, bath, what }) => `${tank}/${bath}/${what}`)
    .toSorted()
    .join(" ");

/** Only what film is in now, and the pour after it: what lies further off may still move. */
function nextHands(bench: Bench, run: Run, now: Instant): Hands | undefined {
  const [hands] = handsOn(bench, [run], now);
  const stage = currentStage(run);
  if (hands === undefined || stage === undefined) return undefined;
  const next = nextStage(run, run.current)?.stage.bath;
  const busy = hands.busy.filter(
    ({ bath, what, to }) => to > now && (bath === stage.bath || (bath === next && what === "pour")),
  );
  return { ...hands, busy };
}

/** The next clash of each two tanks in which the end of an exact bath would be missed. */
function clashesOf(bench: Bench, runs: readonly Run[], now: Instant): readonly Clash[] {
  const exact = new Set(
    runs.flatMap((run) => {
      const stage = currentStage(run);
      return stage?.sense === "exact" ? [`${run.tank}/${stage.bath}`] : [];
    }),
  );
  const isExactEnd = ({ tank, bath, what }: Collision["one"]): boolean =>
    what === "pour out" && exact.has(`${tank}/${bath}`);
  const all = runs.flatMap((run) => nextHands(bench, run, now) ?? []);
  return all.flatMap((hands, index) =>
    all.slice(index + 1).flatMap((other) =>
      collisions(hands, [other])
        .filter((found) => isExactEnd(found.one) || isExactEnd(found.other))
        .slice(0, 1)
        .map((found) => ({
          ...found,
          apart: seconds(Math.abs(found.one.at - found.other.at) / 1000),
        })),
    ),
  );
}

/** Clashes of wet tanks that were not there before: what drift, or a late word, has made of them. */
export function freshClashes(before: Bench, after: Bench, now: Instant): readonly Clash[] {
  if (before.runs === after.runs && before.serving === after.serving) return [];
  const wet = liveRuns(after).filter((run) => !maybeMoved(run, now));
  const found = wet.length < 2 ? [] : clashesOf(after, wet, now);
  if (found.length === 0) return [];
  const known = new Set(clashesOf(before, liveRuns(before), now).map(nameOf));
  return found.filter((clash) => !known.has(nameOf(clash)));
}
