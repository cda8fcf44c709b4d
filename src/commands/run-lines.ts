import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { standing } from "../domain/session/hear.ts";
import type { Run, Stage } from "../domain/session/run.ts";
import { clockChange } from "../domain/timing/clock-change.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { beats, planned, type StageClock } from "../domain/timing/stage-clock.ts";
import { type Instant, later } from "../domain/units/quantity.ts";
import { plain, showCelsius, showDuration } from "../domain/units/show.ts";
import type { Json, Shown } from "../reply/reply.ts";

/** The name and mark of the bottle a stage pours from: "blix: Lantern, the ring". */
export function bathWithBottle(bench: Bench, stage: Stage): string {
  const bottle = stage.bottle === undefined ? undefined : ownValue(bench.bottles, stage.bottle);
  if (bottle === undefined) return stage.bath;
  return `${stage.bath}: ${bottle.name}, the ${bottle.mark}`;
}

/**
 * The plan of a run as text: one line a bath, with clock times from the bench's zone, and one below
 * them where the clocks are changed on the way.
 */
export function planLines(bench: Bench, run: Run, from: Instant): readonly string[] {
  const clocks = planned(run, from);
  const baths = run.stages.flatMap((stage, index) => {
    const clock = clocks[index];
    if (clock === undefined) return [];
    const at = stage.temperature === undefined ? "" : ` at ${showCelsius(stage.temperature)}`;
    const band = stage.tolerance === undefined ? "" : ` ±${plain(stage.tolerance, 2)}`;
    const sense = stage.sense === "exact" ? "exactly" : "at least";
    return [
      `${clockTime(clock.pour, bench.zone)} pour ${bathWithBottle(bench, stage)}, ${sense} ${showDuration(stage.time)}${at}${band}; pour out ${clockTime(clock.pourOut, bench.zone)}`,
    ];
  });
  return [...baths, ...changeOfClocks(bench, clocks, later(from, -bench.lead))];
}

/** What to know of the clocks to go by these times; nothing on most days. */
export function changeOfClocks(
  { zone }: Bench,
  clocks: readonly (StageClock | undefined)[],
  from: Instant,
): readonly string[] {
  const end = clocks.findLast((clock) => clock !== undefined)?.end;
  const change = end === undefined ? undefined : clockChange(from, end, zone);
  return change === undefined ? [] : [change];
}

/** The plan as values: times of a stage in s from its own start. */
export function planFigures(run: Run): Record<string, Shown> {
  const stages: Json[] = run.stages.map((stage) => stageJson(stage));
  const total = run.stages.reduce((sum, stage) => sum + stage.time + run.window / 2, 0);
  const first = run.stages[0];
  const figures: Record<string, Shown> = {
    stages: { value: stages, origin: first?.timeOrigin ?? { kind: "computed" } },
    total_s: {
      value: total,
      origin: { kind: "computed", source: "times plus half a pour window for each pour" },
    },
  };
  if (first !== undefined) {
    figures.time_s = { value: first.time, origin: first.timeOrigin };
    if (first.temperature !== undefined && first.temperatureOrigin !== undefined) {
      figures.temp_c = { value: first.temperature, origin: first.temperatureOrigin };
    }
  }
  return figures;
}

const stageJson = (stage: Stage): Json => ({
  bath: stage.bath,
  time_s: stage.time,
  sense: stage.sense,
  temp_c: stage.temperature ?? null,
  tolerance_c: stage.tolerance ?? null,
  pour_out_s: stage.time - stage.drain,
  agitate_at_s: beats(stage),
  vent_at_s: stage.vent ?? null,
});

/** A tank by its name, and that it is only rehearsed: before every word about it. */
export const calledTank = ({ tank, rehearsal }: Pick<Run, "tank" | "rehearsal">): string =>
  rehearsal === undefined ? tank : `${tank}, rehearsal`;

/** Where a run stands, in one line for the eye. */
export function standingLine(bench: Bench, run: Run, now: Instant): string {
  const at = standing(run, now);
  switch (at.kind) {
    case "over":
      return `${calledTank(run)}: over.`;
    case "planned":
      return at.pourAt === undefined
        ? `${calledTank(run)}: ${at.stage.bath} waits for "ready". No clock is running.`
        : `${calledTank(run)}: pour ${at.stage.bath} at ${clockTime(at.pourAt, bench.zone)}. No clock is running.`;
    case "pouring":
      return `${calledTank(run)}: ${at.stage.bath} is being poured; say in when it is full.`;
    case "in":
      return at.left >= 0
        ? `${calledTank(run)}: ${at.stage.bath}, ${showDuration(at.left)} left.`
        : `${calledTank(run)}: ${at.stage.bath} has been over for ${showDuration(-at.left as typeof at.left)}.`;
  }
}
