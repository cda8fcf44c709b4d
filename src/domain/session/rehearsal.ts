import type { Origin } from "../origin.ts";
import { err, ok, type Result } from "../result.ts";
import { later, type Seconds, seconds, secondsBetween } from "../units/quantity.ts";
import { plain, showDuration } from "../units/show.ts";
import type { Run, Stage } from "./run.ts";

export const SLOWEST = 1;
export const FASTEST = 60;

export type RehearsalTrouble =
  | { readonly kind: "speed-out-of-range"; readonly speed: number }
  | { readonly kind: "already-wet"; readonly tank: string }
  | { readonly kind: "already-rehearsal"; readonly tank: string };

/**
 * The same run with water and a scrap roll: every length divided by `speed`, marked, with no film,
 * no roll and no bottle. A bottle's name would send the hand to the real one, so the cues name the
 * bath alone, and nothing is left that could be counted.
 *
 * @param run    a plan; refused once its first bath has been poured
 * @param speed  1 (real time) to 60
 */
export function rehearse(run: Run, speed: number): Result<Run, RehearsalTrouble> {
  if (!(speed >= SLOWEST && speed <= FASTEST)) return err({ kind: "speed-out-of-range", speed });
  if (run.rehearsal !== undefined) return err({ kind: "already-rehearsal", tank: run.tank });
  const begun = run.endedAt !== undefined || run.stages.some(({ inAt }) => inAt !== undefined);
  if (begun) return err({ kind: "already-wet", tank: run.tank });
  const { rolls: _, formatAssumed: __, ...plan } = run;
  return ok({
    ...plan,
    title: `${run.title}, rehearsal`,
    rehearsal: { speed },
    film: [],
    formatAssumed: false,
    counted: [],
    window: faster(run.window, speed),
    stages: run.stages.map((stage) => rehearsed(stage, run, speed)),
  });
}

function rehearsed(stage: Stage, run: Run, speed: number): Stage {
  const { bottle: _, follows: __, agitation, vent, pourAt, ...rest } = stage;
  return {
    ...rest,
    time: faster(stage.time, speed),
    timeOrigin: divided(stage.timeOrigin, stage.time, speed),
    drain: faster(stage.drain, speed),
    ...(agitation === undefined ? {} : { agitation: agitatedFaster(agitation, speed) }),
    ...(vent === undefined ? {} : { vent: faster(vent, speed) }),
    ...(pourAt === undefined
      ? {}
      : { pourAt: later(run.plannedAt, faster(secondsBetween(run.plannedAt, pourAt), speed)) }),
  };
}

type Agitated = NonNullable<Stage["agitation"]>;

function agitatedFaster(agitation: Agitated, speed: number): Agitated {
  const lengths = Object.entries(agitation).map(([key, value]) => [
    key,
    typeof value === "number" ? faster(seconds(value), speed) : value,
  ]);
  return Object.fromEntries(lengths) as Agitated;
}

/** To the millisecond, so that instants stay whole. */
const faster = (length: Seconds, speed: number): Seconds =>
  seconds(Math.round((length * 1000) / speed) / 1000);

const divided = (origin: Origin, time: Seconds, speed: number): Origin =>
  speed === 1
    ? origin
    : {
        kind: "computed",
        source: `${showDuration(time)} divided by ${plain(speed, 2)}, rehearsal`,
      };

export function explainRehearsal(trouble: RehearsalTrouble): string {
  switch (trouble.kind) {
    case "speed-out-of-range":
      return `A rehearsal runs at 1 (real time) to ${FASTEST} times the speed. Give one of those.`;
    case "already-wet":
      return `${trouble.tank} has been poured: a run with film in it is no rehearsal. Rehearse before, or in another tank.`;
    case "already-rehearsal":
      return `${trouble.tank} is a rehearsal already. Stop it first to rehearse at another speed.`;
  }
}

/** Said with every plan and shown on every picture of a rehearsal; undefined for a real run. */
export const rehearsalMark = (run: Run): string | undefined =>
  run.rehearsal === undefined
    ? undefined
    : `REHEARSAL with water and a scrap roll${run.rehearsal.speed === 1 ? "" : `, ${plain(run.rehearsal.speed, 2)} times as fast`}. Nothing is counted.`;
