/** The usual value of some figures: their median, with the least and the most of them. */
export type Spread = {
  readonly count: number;
  readonly median: number;
  readonly least: number;
  readonly most: number;
};

/** Undefined of nothing. Of an even number the median is the middle between the two in the middle. */
export function spreadOf(figures: readonly number[]): Spread | undefined {
  const sorted = Float64Array.from(figures).sort();
  const [least] = sorted;
  const most = sorted.at(-1);
  const high = sorted[Math.floor(sorted.length / 2)];
  const low = sorted[Math.floor((sorted.length - 1) / 2)];
  if (least === undefined || most === undefined || low === undefined || high === undefined) {
    return undefined;
  }
  return { count: sorted.length, median: (low + high) / 2, least, most };
}
