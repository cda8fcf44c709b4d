/** The smallest value that at least `percent` of all values do not exceed. */
export function percentile(values: readonly number[], percent: number): number {
  const rising = values.toSorted((one, other) => one - other);
  const rank = Math.max(1, Math.ceil((percent / 100) * rising.length));
  return rising[rank - 1] ?? Number.NaN;
}
