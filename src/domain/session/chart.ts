import { layOut } from "../timing/stage-clock.ts";
import {
  type Celsius,
  type Instant,
  instant,
  later,
  type Seconds,
  secondsBetween,
} from "../units/quantity.ts";
import { rehearsalMark } from "./rehearsal.ts";
import { isLive, type Run, type Stage } from "./run.ts";
import { stageRecords } from "./summary.ts";

/** Where a reading lies: against the band, or against nothing where the stage has none. */
export type Verdict = "inside" | "above" | "below" | "no band";

export type ChartReading = {
  readonly at: Instant;
  /** From the start of its stage, s; negative before the pour. */
  readonly into: Seconds;
  readonly temperature: Celsius;
  readonly thermometer: string | undefined;
  readonly verdict: Verdict;
};

export type Span = { readonly from: Instant; readonly to: Instant };

/** The edges belong to the band. */
export type Band = { readonly low: Celsius; readonly aim: Celsius; readonly high: Celsius };

export type ChartStage = {
  readonly bath: string;
  readonly sense: Stage["sense"];
  readonly time: Seconds;
  /** From its start (real where known) for its planned time; missing where it was skipped. */
  readonly planned: Span | undefined;
  /** From "in" to "out", or to the moment the chart is drawn; missing before the pour. */
  readonly real: Span | undefined;
  /** Film is still in it. */
  readonly open: boolean;
  readonly plusMinus: Seconds | undefined;
  readonly skipped: boolean;
  readonly aim: Celsius | undefined;
  readonly band: Band | undefined;
  readonly readings: readonly ChartReading[];
  /** In words, each with its bath's name. */
  readonly deviations: readonly string[];
};

/** A run as a picture or a few lines of text need it. */
export type Chart = {
  readonly tank: string;
  readonly title: string;
  /** Of the first pour, real or planned. */
  readonly from: Instant;
  readonly to: Instant;
  readonly stages: readonly ChartStage[];
  /** What must stand on every picture of a rehearsal. */
  readonly mark: string | undefined;
};

/** The edge of the band is inside it, whatever the last binary digit says. */
const EDGE = 1e-9;

function bandOf({ temperature, tolerance }: Stage): Band | undefined {
  if (temperature === undefined || tolerance === undefined) return undefined;
  const low = (temperature - tolerance) as Celsius;
  const high = (temperature + tolerance) as Celsius;
  return { low, aim: temperature, high };
}

function verdictOn(temperature: Celsius, band: Band | undefined): Verdict {
  if (band === undefined) return "no band";
  if (temperature > band.high + EDGE) return "above";
  return temperature < band.low - EDGE ? "below" : "inside";
}

/**
 * A run as series: each stage's planned and real span, its tolerance band and its readings.
 *
 * @param now  ends the span of a bath that film is still in
 */
export function chartOf(run: Run, now: Instant): Chart {
  // A run that waits has no instant of its own yet: it is drawn as if it went on now.
  const clocks = layOut(run, latest(run.plannedAt, isLive(run) ? now : undefined));
  const records = stageRecords(run);
  const stages = run.stages.map((stage, index): ChartStage => {
    const clock = clocks[index];
    const start = stage.inAt ?? clock?.start;
    const band = bandOf(stage);
    const open = stage.inAt !== undefined && stage.outAt === undefined;
    const until = stage.outAt ?? latest(now, stage.inAt);
    return {
      bath: stage.bath,
      sense: stage.sense,
      time: stage.time,
      planned:
        start === undefined || stage.skipped === true
          ? undefined
          : { from: start, to: later(start, stage.time) },
      real: stage.inAt === undefined ? undefined : { from: stage.inAt, to: until },
      open,
      plusMinus: stage.plusMinus,
      skipped: stage.skipped === true,
      aim: stage.temperature,
      band,
      readings: run.readings
        .filter((reading) => reading.stage === index)
        .toSorted((a, b) => a.at - b.at)
        .map(({ at, temperature, thermometer }) => ({
          at,
          into: secondsBetween(start ?? at, at),
          temperature,
          thermometer,
          verdict: verdictOn(temperature, band),
        })),
      deviations: records[index]?.deviations ?? [],
    };
  });
  const ends = stages.flatMap(({ planned, real }) => [planned?.to ?? 0, real?.to ?? 0]);
  const from =
    run.stages.find(({ pourAt }) => pourAt !== undefined)?.pourAt ??
    latest(run.plannedAt, isLive(run) ? now : undefined);
  return {
    tank: run.tank,
    title: run.title,
    from,
    to: instant(Math.max(from, ...ends)),
    stages,
    mark: rehearsalMark(run),
  };
}

const latest = (one: Instant, other: Instant | undefined): Instant =>
  other === undefined || one > other ? one : other;
