/** The first wait after a failure, and the longest, ms. */
const FIRST = 250;
const LONGEST = 15_000;

/** How long to wait after so many failures in a row (1 or more), ms. */
export const backOff = (failures: number): number => Math.min(LONGEST, FIRST * 2 ** (failures - 1));
