import { instant } from "../../../domain/units/quantity.ts";
import type { Clock } from "../../../platform/clock.ts";
import { createHeap } from "../../../scheduler/heap.ts";
import { backOff } from "./back-off.ts";
import { type Failure, failureOf } from "./failure.ts";
import { type Limits, type Rank, ranks } from "./limits.ts";

/** One request, as a lane wants it made now. */
export type Send = {
  /** The route whose limit it counts against. */
  readonly key: string;
  perform(signal: AbortSignal): Promise<unknown>;
  accepted(answer: unknown): void;
  /**
   * It will not do as it is: the lane must go on to something else, or say how long, ms, until it
   * may be tried again.
   */
  refused(failure: Failure): number | undefined;
};

/** Requests that go one after the other: the next is asked for when the one before was settled. */
export type Lane = {
  readonly rank: Rank;
  /** What to send at this instant, when to ask again, or nothing until the lane is woken. */
  next(now: number): Send | { readonly at: number } | undefined;
};

export type SenderParts = {
  readonly clock: Clock;
  readonly limits: Limits;
  readonly now: () => number;
  readonly onFault: (error: unknown) => void;
  /** The token is not accepted any more: nothing more is sent. */
  readonly onBadToken: () => void;
};

export type Sender = {
  /** There is something new in a lane. */
  wake(lane: Lane): void;
  /** The way is open again: whatever waited after a failure is tried now. */
  kick(): void;
  /** Resolves once nothing is under way or held back by a limit; what waits after a failure waits. */
  idle(): Promise<void>;
  stop(): void;
};

type Standing = {
  busy: boolean;
  failures: number;
  /** Not tried again before this, after a failure. */
  notBefore: number;
  /** Not asked again before this, by its own wish or for a limit. */
  askAt: number;
};

const fresh = (): Standing => ({ busy: false, failures: 0, notBefore: 0, askAt: 0 });

/** A request that takes longer, ms, is given up and made again. */
const PATIENCE = 6000;
/** Buckets that are full again are forgotten this often, ms. */
const SWEEP = 60_000;

/**
 * Sends what the lanes hold: cues before everything else, within the limits, and again after a
 * failure, later each time, without end: it is the lane that decides what has become useless.
 * Thousands of lanes may wait; only those that may go now are looked at.
 */
export function createSender(parts: SenderParts): Sender {
  const { clock, limits, now, onFault } = parts;
  /** Lanes that have, or may have, something to send. */
  const lanes = new Map<Lane, Standing>();
  /** Of these, what is to be asked now, in turn; and what is to be asked later. */
  const ready = { cue: new Set<Lane>(), other: new Set<Lane>(), edit: new Set<Lane>() };
  const later = createHeap<Lane>();
  /** Held back by a limit of its own, and by nothing else. */
  const limited = new Set<Lane>();
  let busy = 0;
  let callOff: (() => void) | undefined;
  let stopped = false;
  let soon = false;
  let swept = now();
  let waiting: (() => void)[] = [];

  const isActive = (): boolean =>
    busy > 0 || limited.size > 0 || ranks.some((rank) => ready[rank].size > 0);

  /** Puts a lane where it waits; one that is busy comes back by itself. */
  const queue = (lane: Lane, standing: Standing, at = now()): void => {
    if (standing.busy) return;
    const due = Math.max(standing.notBefore, standing.askAt);
    if (due > at) {
      ready[lane.rank].delete(lane);
      later.set(lane, instant(due));
    } else {
      later.remove(lane);
      ready[lane.rank].add(lane);
    }
  };

  const start = (lane: Lane, standing: Standing, send: Send): void => {
    standing.busy = true;
    busy += 1;
    limits.take(send.key, now());
    const giveUp = new AbortController();
    const endPatience = clock.setTimer(PATIENCE, () => giveUp.abort());
    const going = async (): Promise<void> => {
      try {
        const answer = await send.perform(giveUp.signal);
        standing.failures = 0;
        send.accepted(answer);
      } catch (error) {
        fail(lane, standing, send, failureOf(error));
      } finally {
        endPatience();
      }
    };
    void going()
      .catch(onFault)
      .finally(() => {
        standing.busy = false;
        standing.askAt = 0;
        busy -= 1;
        queue(lane, standing);
        pumpSoon();
      });
  };

  const fail = (lane: Lane, standing: Standing, send: Send, failure: Failure): void => {
    switch (failure.kind) {
      case "limited":
        limited.add(lane);
        standing.notBefore = now() + failure.ms;
        return;
      case "unreachable":
        standing.failures += 1;
        standing.notBefore = now() + backOff(standing.failures);
        return;
      case "bad-token":
        stop();
        parts.onBadToken();
        return;
      default: {
        const wait = send.refused(failure);
        if (wait === undefined) standing.failures = 0;
        else standing.notBefore = now() + wait;
      }
    }
  };

  /** Starts what may go now; what a limit for all holds back keeps its turn. */
  const startReady = (rank: Rank, at: number): void => {
    if (limits.openAt(rank, at) > at) return;
    // Of those that are ready now: one that is woken meanwhile has its turn after them.
    for (const lane of [...ready[rank]]) {
      if (limits.openAt(rank, at) > at) return;
      ready[rank].delete(lane);
      const standing = lanes.get(lane);
      if (standing !== undefined) askLane(lane, standing, at);
    }
  };

  const askLane = (lane: Lane, standing: Standing, at: number): void => {
    limited.delete(lane);
    const send = lane.next(at);
    if (send === undefined) {
      lanes.delete(lane);
      return;
    }
    const free = "at" in send ? Math.max(send.at, at + 1) : limits.freeAt(send.key, lane.rank, at);
    if (!("at" in send)) {
      if (free <= at) {
        start(lane, standing, send);
        return;
      }
      limited.add(lane);
    }
    standing.askAt = free;
    // By the instant it was judged by: to a clock that has moved on it would be due again at once.
    queue(lane, standing, at);
  };

  /** Many lanes may be woken at once: they are looked through once, when all of that is done. */
  const pumpSoon = (): void => {
    if (soon) return;
    soon = true;
    queueMicrotask(pump);
  };

  const pump = (): void => {
    soon = false;
    if (stopped) return;
    callOff?.();
    callOff = undefined;
    const at = now();
    if (at - swept > SWEEP) {
      limits.sweep(at);
      swept = at;
    }
    for (let due = later.first(); due !== undefined && due.at <= at; due = later.first()) {
      later.remove(due.key);
      ready[due.key.rank].add(due.key);
    }
    for (const rank of ranks) startReady(rank, at);
    const again = Math.min(
      later.first()?.at ?? Number.POSITIVE_INFINITY,
      ...ranks.filter((rank) => ready[rank].size > 0).map((rank) => limits.openAt(rank, at)),
    );
    if (Number.isFinite(again)) callOff = clock.setTimer(Math.max(1, again - at), pump);
    if (!isActive()) {
      for (const done of waiting) done();
      waiting = [];
    }
  };

  const stop = (): void => {
    stopped = true;
    callOff?.();
    for (const done of waiting) done();
    waiting = [];
  };

  return {
    wake(lane) {
      if (stopped) return;
      const standing = lanes.get(lane) ?? fresh();
      standing.askAt = 0;
      lanes.set(lane, standing);
      queue(lane, standing);
      pumpSoon();
    },
    kick() {
      for (const [lane, standing] of lanes) {
        standing.notBefore = 0;
        standing.failures = 0;
        queue(lane, standing);
      }
      pumpSoon();
    },
    idle: () =>
      stopped || (!soon && !isActive())
        ? Promise.resolve()
        : new Promise((done) => {
            waiting.push(done);
          }),
    stop,
  };
}
