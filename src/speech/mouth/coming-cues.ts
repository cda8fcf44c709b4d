import { dailyLooks } from "../../commands/daily-looks.ts";
import { announce } from "../../conversation/announce.ts";
import type { Bench } from "../../domain/session/bench.ts";
import { decide, nextCue } from "../../domain/session/decide.ts";
import type { Reply } from "../../reply/reply.ts";

/** Cues are looked for so far ahead, one after the other. */
const MOST = 6;

/**
 * The next cues of a bench if nobody says a word, in the words they will come in, so that their
 * sound can be made before they are due. Pure.
 */
export function comingCues(bench: Bench): readonly Reply[] {
  const replies: Reply[] = [];
  let at = bench;
  for (let count = 0; count < MOST; count += 1) {
    const due = nextCue(at);
    if (due === undefined) break;
    const decided = decide(at, due, dailyLooks);
    replies.push(...announce(decided.bench, decided.happenings, due));
    if (decided.bench === at) break;
    at = decided.bench;
  }
  return replies;
}
