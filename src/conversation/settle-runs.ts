import { withClashes } from "../commands/clash-words.ts";
import type { Outcome } from "../commands/define-command.ts";
import { apartByClock, keptApart } from "../commands/keep-apart.ts";
import type { Bench } from "../domain/session/bench.ts";
import { followBottles, type Retimed } from "../domain/session/follow-bottles.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Reply } from "../reply/reply.ts";
import { retimedReply } from "./announce.ts";

/** Who pours first decides a time, and a time who pours first: more rounds than ever change anything. */
const MOST_ROUNDS = 4;

/**
 * What a command did, with every other run as it must be after it: developers that wait get the
 * time for what their bottle will have done, and runs that have not begun give way to it.
 */
export function settleRuns(
  before: Bench,
  outcome: Outcome,
  now: Instant,
): Outcome & { readonly retimed: readonly Retimed[] } {
  let [known, settled] = [before, outcome];
  let retimed: readonly Retimed[] = [];
  for (let round = 0; settled.bench !== undefined && round < MOST_ROUNDS; round += 1) {
    const followed = followBottles(settled.bench, now);
    retimed = joined(retimed, followed.retimed);
    settled = keptApart(known, { ...settled, bench: followed.bench }, now);
    if (settled.bench === followed.bench) break;
    known = followed.bench;
  }
  const { bench, reply } = settled;
  return bench === undefined
    ? { ...settled, retimed }
    : { ...settled, reply: withClashes(before, bench, reply, now), retimed };
}

/** The same where the clock alone moved runs on: what changes is told by cues. */
export function settleByClock(
  before: Bench,
  now: Instant,
): { readonly bench: Bench; readonly replies: readonly Reply[] } {
  const replies: Reply[] = [];
  let retimed: readonly Retimed[] = [];
  let bench = before;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const apart = apartByClock(bench, now);
    replies.push(...apart.replies);
    if (apart.bench === bench) break;
    const followed = followBottles(apart.bench, now);
    retimed = joined(retimed, followed.retimed);
    bench = followed.bench;
  }
  return { bench, replies: [...replies, ...retimed.map(retimedReply)] };
}

/** A time that changed twice is said once, from what it was to what it is. */
function joined(one: readonly Retimed[], more: readonly Retimed[]): readonly Retimed[] {
  const same = (a: Retimed, b: Retimed): boolean => a.tank === b.tank && a.bath === b.bath;
  return [
    ...one.filter((was) => !more.some((is) => same(was, is))),
    ...more.map((is) => ({ ...is, from: one.find((was) => same(was, is))?.from ?? is.from })),
  ].filter(({ from, to, refused }) => from !== to || refused !== undefined);
}
