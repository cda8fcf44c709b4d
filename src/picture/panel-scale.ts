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
  /** °C from the aim beyond which degrees stand closer, so that all readings find their place. */
  readonly bend: number | undefined;
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
  const middle = plot.y + plot.h / 2;
  const off = offsets(tolerance, most, room, plot.h, look);
  const y = (temperature: number): number => {
    const from = temperature - middleOf;
    return middle - Math.sign(from) * Math.min(room, off.px(Math.abs(from)));
  };
  return { x, y, zero, total, middle, half: off.px(tolerance), bend: off.bend };
}

/**
 * Degrees from the aim as px. The band takes as much as it may while every reading still fits. Where
 * its edges could not be named any more, degrees beyond the band stand closer the further they are
 * off (straight in the logarithm): nothing is cut off, and the band can still be judged.
 */
function offsets(
  tolerance: number,
  most: number,
  room: number,
  height: number,
  look: Look,
): { readonly px: (off: number) => number; readonly bend: number | undefined } {
  const fits = room / Math.max(most, LEAST_SPAN * (tolerance === 0 ? 1 : 0), 1e-6);
  if (tolerance === 0 || fits >= (look.small * 0.72) / tolerance) {
    const perDegree = tolerance === 0 ? fits : Math.min(fits, (height * 0.24) / tolerance);
    return { px: (off) => off * perDegree, bend: undefined };
  }
  const perDegree = (look.small * 0.9) / tolerance;
  const bend = tolerance * 1.25;
  const edge = bend * perDegree;
  return {
    px: (off) =>
      off <= bend
        ? off * perDegree
        : edge + ((room - edge) * Math.log(off / bend)) / Math.log(most / bend),
    bend,
  };
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
