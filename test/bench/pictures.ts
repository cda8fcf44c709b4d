import { toPng } from "../../src/picture/png.ts";
import { sessionPicture } from "../../src/picture/session-picture.ts";
import { benchSession } from "../support/bench-session.ts";
import { percentile } from "./percentile.ts";

/** A timer that is to go off every so many ms stands for the cues. */
const BEAT = 5;

export type PictureBench = {
  /** From the session to a PNG, both shapes alike, ms. */
  readonly p50: number;
  readonly max: number;
  /** How late a timer of this thread went off meanwhile at worst, ms. */
  readonly late: number;
};

/** Pictures of a session one after the other, as a bench asks for them, with a clock beside. */
export async function benchPictures(rounds = 12): Promise<PictureBench> {
  const { session, words } = benchSession();
  const took: number[] = [];
  let late = 0;
  let due = performance.now() + BEAT;
  const timer = setInterval(() => {
    const now = performance.now();
    late = Math.max(late, now - due);
    due = now + BEAT;
  }, BEAT);
  for (let round = 0; round <= rounds; round += 1) {
    const begin = performance.now();
    await toPng(sessionPicture(session, words, round % 2 === 0 ? "wide" : "phone"));
    // The first one fills caches.
    if (round > 0) took.push(performance.now() - begin);
    else late = 0;
  }
  clearInterval(timer);
  return { p50: percentile(took, 50), max: percentile(took, 100), late };
}
