import { type Health, judge, readBeat } from "./judge.ts";

export type Seen = {
  /** The heartbeat file; undefined when there is none. */
  readonly text: string | undefined;
  /** When it was last written or touched, by the clock on the wall. */
  readonly touched: number;
};

export type WatchParts = {
  readonly look: () => Promise<Seen>;
  /** Unix milliseconds. */
  readonly now: () => number;
  readonly pause: (ms: number) => Promise<void>;
};

/** A heart that seems to stand still is looked at again for so many of its beats... */
const BEATS = 1.2;
/** ...and so long at most, ms: whoever asked waits longer than that (deploy). */
export const LONGEST = 15_000;
/** How often, ms. */
const STEP = 500;

/**
 * Is the program well? A beat that looks old may be as fresh as ever: the clock was set, or the
 * machine slept. So one is waited for before the program is called stuck, and never restarted for
 * a clock.
 */
export async function watch({ look, now, pause }: WatchParts): Promise<Health> {
  const first = await look();
  const judged = judge(first.text, now());
  const beat = first.text === undefined ? undefined : readBeat(first.text);
  if (judged.well || beat === undefined) return judged;
  const patience = Math.min(LONGEST, beat.every * BEATS);
  for (let waited = 0; waited < patience; waited += STEP) {
    await pause(Math.min(STEP, patience - waited));
    const { text, touched } = await look();
    if (text === undefined) return judge(text, now());
    if (text !== first.text || touched !== first.touched) return { well: true, says: BEATS_AGAIN };
  }
  return judged;
}

const BEATS_AGAIN =
  "Well: a heartbeat came just now. Before, the clock was set, the machine slept, or the disk was full.";
