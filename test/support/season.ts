import { type Bench, newBench } from "../../src/domain/session/bench.ts";
import type { Past } from "../../src/domain/session/past.ts";
import type { Run, Stage } from "../../src/domain/session/run.ts";
import {
  celsius,
  celsiusDifference,
  type Instant,
  later,
  seconds,
} from "../../src/domain/units/quantity.ts";
import { bottleOf } from "./bottles.ts";
import { livedRun } from "./lived-run.ts";
import { runOf, stageOf, washOf } from "./runs.ts";

/** One run in a line: what differs from a plain evening with one roll of 120. */
export type Outline = {
  readonly on: string;
  readonly by?: string;
  readonly tank?: string;
  readonly push?: number;
  readonly film?: Run["film"];
  readonly process?: string;
  readonly bottle?: string;
  /** Developer readings, °C, at the start and at the end. */
  readonly read?: readonly [number, number];
  readonly thermometer?: string;
  /** Baths shorter or longer than planned, s. */
  readonly off?: Record<number, number>;
  readonly skipped?: boolean;
  readonly nothingIn?: boolean;
  readonly rehearsal?: Run["rehearsal"];
};

const ZONE = "Europe/Lisbon";

/** INVENTED: an ended run of developer, blix and wash. `n` is its number. */
export function seasonRun(outline: Outline, n: number): Run {
  const planned: readonly Stage[] = [
    stageOf({
      temperature: celsius(38),
      tolerance: celsiusDifference(0.2),
      ...(outline.bottle === undefined ? {} : { bottle: outline.bottle }),
    }),
    stageOf({ bath: "blix", kind: "blix", sense: "at least", time: seconds(390) }),
    washOf(),
  ];
  const [start, end] = outline.read ?? [];
  const read = [
    ...(start === undefined ? [] : [{ stage: 0, into: 10, temperature: start }]),
    ...(end === undefined ? [] : [{ stage: 0, into: 185, temperature: end }]),
  ];
  const lived = livedRun(runOf(planned), { off: outline.off ?? {}, read });
  const on = Temporal.PlainDateTime.from(outline.on).toZonedDateTime(ZONE).epochMilliseconds;
  const by = (on - lived.plannedAt) / 1000;
  const move = (at: Instant | undefined): Instant => later(at ?? lived.plannedAt, by);
  const who = outline.by ?? "Ines";
  const stages = lived.stages.map((stage, index): Stage => {
    if (outline.skipped === true && index === 2) {
      const { inAt: _, outAt: __, ...rest } = stage;
      return { ...rest, skipped: true };
    }
    return { ...stage, inAt: move(stage.inAt), outAt: move(stage.outAt), inBy: who, outBy: who };
  });
  return {
    ...lived,
    id: `run-${n}`,
    tank: outline.tank ?? "North",
    process: outline.process ?? "C-41",
    film: outline.film ?? [{ format: "120", count: 1 }],
    plannedAt: later(lived.plannedAt, by),
    endedAt: move(lived.endedAt),
    by: who,
    stages,
    readings: lived.readings.map((reading) => ({
      ...reading,
      at: later(reading.at, by),
      ...(outline.thermometer === undefined
        ? { unverified: "No thermometer was named." }
        : { thermometer: outline.thermometer }),
    })),
    ...(outline.push === undefined ? {} : { push: outline.push }),
    ...(outline.nothingIn === undefined ? {} : { nothingIn: outline.nothingIn }),
    ...(outline.rehearsal === undefined ? {} : { rehearsal: outline.rehearsal }),
  };
}

/** A bench whose last `here` runs are at hand and whose others stand in files. */
export function seasonOf(
  outlines: readonly Outline[],
  here = 3,
): { readonly bench: Bench; readonly past: Past; readonly runs: readonly Run[] } {
  const runs = outlines.map((outline, index) => seasonRun(outline, index + 1));
  const atHand = runs.slice(-here);
  return {
    runs,
    past: { runs: runs.slice(0, -here), damaged: [] },
    bench: {
      ...newBench("test", ZONE),
      nextId: runs.length + 1,
      runs: Object.fromEntries(atHand.map((run) => [run.id, run])),
      bottles: {
        acorn: bottleOf({ id: "acorn", name: "Acorn", by: "Dora" }),
        cedar: { ...bottleOf({ id: "cedar", name: "Cedar", by: "Ines" }), retiredOn: "2026-10-30" },
      },
    },
  };
}
