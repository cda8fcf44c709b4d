/** One value that was read at a time, in whatever unit. */
export type Point = { readonly at: number; readonly value: number };

export type Trend = {
  readonly points: number;
  readonly median: number;
  /** By unit of time: the median of all slopes between two points (Theil 1950, Sen 1968). */
  readonly slope: number;
  /** The slope lies between these two in 95 of 100 cases (Sen 1968, by Kendall's variance). */
  readonly low: number;
  readonly high: number;
  /** How far points lie from the line, as a standard deviation: 1.4826 times their median distance. */
  readonly scatter: number;
};

const middle = (rising: readonly number[]): number => {
  const half = Math.floor(rising.length / 2);
  const upper = rising[half] ?? Number.NaN;
  return rising.length % 2 === 1 ? upper : ((rising[half - 1] ?? Number.NaN) + upper) / 2;
};

const rising = (values: readonly number[]): readonly number[] => values.toSorted((a, b) => a - b);

/** Whether something grows: a line through the points that a few wild ones do not bend. */
export function trendOf(points: readonly Point[]): Trend {
  const slopes: number[] = [];
  for (const [first, one] of points.entries()) {
    for (const other of points.slice(first + 1)) {
      if (other.at !== one.at) slopes.push((other.value - one.value) / (other.at - one.at));
    }
  }
  const sorted = rising(slopes);
  const n = points.length;
  const spread = 1.96 * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const pick = (rank: number): number =>
    sorted[Math.min(sorted.length - 1, Math.max(0, Math.round(rank)))] ?? Number.NaN;
  const slope = middle(sorted);
  const rests = points.map(({ at, value }) => value - slope * at);
  const start = middle(rising(rests));
  return {
    points: n,
    median: middle(rising(points.map(({ value }) => value))),
    slope,
    low: pick((sorted.length - spread) / 2 - 1),
    high: pick((sorted.length + spread) / 2),
    scatter: 1.4826 * middle(rising(rests.map((rest) => Math.abs(rest - start)))),
  };
}

/**
 * Flat: a line that does not rise is within what the points allow; or all that it rises by, over
 * the whole time, is less than points scatter anyhow, or less than what is too small to matter.
 *
 * @param lasts    for how long points were taken, in the unit of time
 * @param trifle   in the unit of the values
 */
export function isFlat(trend: Trend, lasts: number, trifle: number): boolean {
  return trend.low <= 0 || trend.slope * lasts <= Math.max(trend.scatter, trifle);
}

/**
 * Whether what rises does so less and less: in its later half less than half as fast as in its
 * earlier one. A program that is still being compiled, or fills its bounded memories, does; a leak
 * goes on as it began.
 */
export function levelsOff(points: readonly Point[]): boolean {
  const middle = Math.floor(points.length / 2);
  const earlier = trendOf(points.slice(0, middle));
  const later = trendOf(points.slice(middle));
  return later.slope < earlier.slope / 2;
}
