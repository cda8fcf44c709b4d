import type { ChartStage } from "../domain/session/chart.ts";
import { secondsBetween } from "../domain/units/quantity.ts";
import type { Look } from "./look.ts";
import type { Box } from "./svg.ts";

/** How a stage's seconds and degrees become px in its plot. */
export type Scale = {
  readonly x: (into: number) => number;
  readonly y: (temperature: number) => number;
  /** Where the time begins: a little in from the left when something was read before the pour. */
  readonly zero: number;
  readonly total: number;
  readonly middle: number;
  /** Half the band, px; 0 where there is none. */
  readonly half: number;
  /** Too far from the aim for its true place: it stands at the edge. */
  readonly isOff: (temperature: number) => boolean;
};

/** Without a band a plot shows at least a degree to either side. */
const LEAST_SPAN = 1;

export function scaleOf(stage: ChartStage, plot: Box, look: Look): Scale {
  const total = longest(stage);
  const before = stage.readings.some(({ into }) => into < 0);
  const zero = plot.x + (before ? plot.w * 0.12 : 0);
  const right = plot.x + plot.w;
  const x = (into: number): number =>
    into < 0
      ? plot.x + look.mark
      : Math.min(right, zero + ((right - zero) * into) / Math.max(1, total));

  const read = stage.readings.map(({ temperature }) => Number(temperature));
  const middleOf =
    stage.aim ?? (read.length === 0 ? 0 : (Math.min(...read) + Math.max(...read)) / 2);
  const most = Math.max(0, ...read.map((one) => Math.abs(one - middleOf)));
  const room = plot.h / 2 - look.mark * 2 - look.small;
  const tolerance = stage.band === undefined ? 0 : stage.band.high - stage.band.aim;
  // The band takes as much as it may while every reading still fits, and never less than its edges
  // can be named in; what then does not fit stands at the edge of the plot.
  const fits = room / Math.max(most, LEAST_SPAN * (tolerance === 0 ? 1 : 0), 1e-6);
  const perDegree =
    tolerance === 0
      ? fits
      : Math.max((look.small * 0.72) / tolerance, Math.min(fits, (plot.h * 0.24) / tolerance));
  const middle = plot.y + plot.h / 2;
  const y = (temperature: number): number =>
    middle - Math.max(-room, Math.min(room, (temperature - middleOf) * perDegree));
  const isOff = (temperature: number): boolean =>
    Math.abs(temperature - middleOf) * perDegree > room + 0.5;
  return { x, y, zero, total, middle, half: tolerance * perDegree, isOff };
}

/** The longest that has to be shown of a stage, s. */
export function longest({ planned, real, readings, time }: ChartStage): number {
  return Math.max(
    time,
    planned === undefined ? 0 : secondsBetween(planned.from, planned.to),
    real === undefined ? 0 : secondsBetween(real.from, real.to),
    ...readings.map(({ into }) => into),
  );
}

/** Whole steps of time so that a plot has at most five, s. */
export function timeSteps(total: number): readonly number[] {
  const step =
    [5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600].find((one) => total / one <= 5) ?? 7200;
  const steps: number[] = [];
  for (let at = 0; at <= total && steps.length < 40; at += step) steps.push(at);
  return steps;
}
