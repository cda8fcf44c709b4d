import type { ReadingTaken, Run, Stage } from "../session/run.ts";
import { stageRecords } from "../session/summary.ts";
import { beats, firstAgitation } from "../timing/stage-clock.ts";
import { type Instant, secondsBetween } from "../units/quantity.ts";
import { firstPour, planOf } from "./plan-of.ts";
import type { SessionStage } from "./session-schema.ts";

/** The edge of the band is inside it, whatever the last binary digit says. */
const EDGE = 1e-9;

/** Every bath of a run as planned and as it was. `bottle` names a bottle by its id. */
export function stageLines(
  run: Run,
  bottle: (id: string) => string | undefined,
): readonly SessionStage[] {
  const plan = planOf(run);
  const records = stageRecords(run);
  const zero = firstPour(run);
  const since = (at: Instant | undefined): number | null =>
    at === undefined ? null : secondsBetween(zero, at);
  return run.stages.map((stage, index): SessionStage => {
    const { from = 0, to = 0 } = plan[index] ?? {};
    const record = records[index];
    return {
      bath: stage.bath,
      kind: stage.kind,
      sense: stage.sense,
      planned_s: stage.timeMeant ?? stage.time,
      moved_s: stage.timeMeant === undefined ? null : stage.time,
      real_s: record?.real ?? null,
      plus_minus_s: stage.plusMinus ?? 0,
      out_by_clock: stage.outByClock === true,
      skipped: stage.skipped === true,
      plan_from_s: from,
      plan_to_s: to,
      real_from_s: since(stage.inAt),
      real_to_s: since(stage.outAt),
      drain_s: stage.drain,
      aim_c: stage.temperature ?? null,
      tolerance_c: stage.tolerance ?? null,
      readings: (record?.readings ?? [])
        .toSorted((one, other) => one.at - other.at)
        .map((reading) => readingLine(stage, reading, zero, from)),
      beats: beatsLine(stage),
      corrections: (stage.corrections ?? []).map(({ kind, by, how }) => ({ kind, by_s: by, how })),
      bottle: stage.bottle === undefined ? null : (bottle(stage.bottle) ?? null),
      deviations: [...(record?.deviations ?? [])],
    };
  });
}

function readingLine(
  stage: Stage,
  { at, temperature, read, thermometer, unverified, asked }: ReadingTaken,
  zero: Instant,
  planned: number,
): SessionStage["readings"][number] {
  const into =
    stage.inAt === undefined ? secondsBetween(zero, at) - planned : secondsBetween(stage.inAt, at);
  return {
    into_s: into,
    temp_c: temperature,
    read_c: read ?? temperature,
    thermometer: thermometer ?? null,
    unverified: unverified ?? null,
    verdict: verdictOf(stage, temperature),
    asked: asked ?? null,
  };
}

function verdictOf(
  { temperature: aim, tolerance }: Stage,
  temperature: number,
): SessionStage["readings"][number]["verdict"] {
  if (aim === undefined || tolerance === undefined) return "no band";
  if (temperature > aim + tolerance + EDGE) return "above";
  return temperature < aim - tolerance - EDGE ? "below" : "inside";
}

/** A beat counts as given where the bath was still in when it came and nothing kept it from ears. */
function beatsLine(stage: Stage): SessionStage["beats"] {
  const { agitation, inAt, outAt, beatsSilent = [], beatsLate = [] } = stage;
  if (agitation === undefined) return null;
  const planned = beats(stage);
  const gone =
    inAt === undefined
      ? Number.NEGATIVE_INFINITY
      : outAt === undefined
        ? Number.NEGATIVE_INFINITY
        : secondsBetween(inAt, outAt);
  const kept = new Set([...beatsSilent, ...beatsLate].map((at) => Math.round(at)));
  return {
    planned_s: [...planned],
    given_s: planned.filter((at) => at <= gone && !kept.has(Math.round(at))),
    silent_s: [...beatsSilent],
    late_s: [...beatsLate],
    each_s: agitation.each ?? null,
    first_s: firstAgitation(stage),
  };
}
