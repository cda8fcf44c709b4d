import type { ReadingTaken, Run } from "./run.ts";

/** A reading so soon after the pour tells what film went into, s: our own bound, no source. */
const SOON = 30;

/**
 * The readings that tell what film met: of those before the pour at most the last, since a bath may
 * be brought to its temperature after the others; none of them where one was taken right after it.
 *
 * @param readings  of one bath, in order
 * @param into      when one was taken, s from the pour; negative before it
 */
export function ofTheFilm<R>(readings: readonly R[], into: (reading: R) => number): readonly R[] {
  const during = readings.filter((one) => into(one) >= 0);
  const before = readings.filter((one) => into(one) < 0).at(-1);
  return before === undefined || during.some((one) => into(one) <= SOON)
    ? during
    : [before, ...during];
}

/** The same for a bath of a run. */
export function filmReadings({ stages, readings }: Run, index: number): readonly ReadingTaken[] {
  const pour = stages[index]?.inAt ?? Number.POSITIVE_INFINITY;
  const own = readings.filter(({ stage }) => stage === index);
  return ofTheFilm(own, ({ at }) => (at - pour) / 1000);
}
