import { planStage } from "../../src/domain/process/plan-stages.ts";
import type { Bath } from "../../src/domain/process/sheet.ts";
import { type Bench, newBench } from "../../src/domain/session/bench.ts";
import { type Run, type Stage, withStage } from "../../src/domain/session/run.ts";
import { type Instant, instant, later, seconds } from "../../src/domain/units/quantity.ts";

/** Half past seven in the evening of 28 November 2026, UTC. */
export const evening: Instant = instant(Date.UTC(2026, 10, 28, 19, 30));

/** A moment of that evening, in seconds after half past seven. */
export const at = (offset: number): Instant => later(evening, offset);

/** A stage of 195 s in developer that is first agitated for 30 s, then for 5 s every 30 s. */
export const stageOf = (change: Partial<Stage> = {}): Stage => ({
  bath: "developer",
  kind: "developer",
  sense: "exact",
  time: seconds(195),
  timeOrigin: { kind: "invented" },
  drain: seconds(10),
  drainOrigin: { kind: "invented" },
  agitation: {
    initial: seconds(30),
    every: seconds(30),
    each: seconds(5),
    origin: { kind: "invented" },
  },
  ...change,
});

export const washOf = (change: Partial<Stage> = {}): Stage =>
  stageOf({ bath: "wash", kind: "wash", sense: "at least", agitation: undefined, ...change });

/** A run planned at half past seven whose first pour is due `lead` s later, under a window of 20 s. */
export function runOf(
  stages: readonly Stage[],
  { lead = 30, ...change }: Partial<Run> & { readonly lead?: number } = {},
): Run {
  const run: Run = {
    id: "run-1",
    tank: "North",
    title: "test",
    sheet: "demo",
    process: "C-41",
    film: [],
    formatAssumed: false,
    plannedAt: evening,
    current: 0,
    stages: [...stages],
    cuedUntil: evening,
    window: seconds(20),
    quiet: false,
    readings: [],
    notes: [],
    counted: [],
    ...change,
  };
  return withStage(run, 0, { pourAt: at(lead) });
}

/** Every bath of a sheet with a time, as stages; throws where one cannot be planned. */
export const stagesOf = (baths: readonly Bath[]): readonly Stage[] =>
  baths.map((bath) => {
    const planned = planStage(bath, {});
    if (!planned.ok) throw new Error(`${bath.name}: ${planned.trouble.kind}`);
    return planned.stage;
  });

export const benchWith = (...runs: readonly Run[]): Bench => ({
  ...newBench("test", "Europe/Lisbon"),
  nextId: runs.length + 1,
  runs: Object.fromEntries(runs.map((run) => [run.id, run])),
});
