import type { Clock } from "../../../platform/clock.ts";
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
  /** Held back by a limit, and by nothing else. */
  limited: boolean;
  failures: number;
  /** Not tried again before this, after a failure. */
  notBefore: number;
  /** Not asked again before this, by its own wish or for a limit. */
  askAt: number;
};

const fresh = (): Standing => ({
  busy: false,
  limited: false,
  failures: 0,
  notBefore: 0,
  askAt: 0,
});

/** A request that takes longer, ms, is given up and made again. */
const PATIENCE = 6000;
/** Buckets that are full again are forgotten this often, ms. */
const SWEEP = 60_000;

/**
 * Sends what the lanes hold: cues before everything else, within the limits, and again after a
 * failure, later each time, without end: it is the lane that decides what has become useless.
 */
export function createSender(parts: SenderParts): Sender {
  const { clock, limits, now, onFault } = parts;
  /** Lanes that have, or may have, something to send. */
  const lanes = new Map<Lane, Standing>();
  let callOff: (() => void) | undefined;
  let stopped = false;
  let soon = false;
  let swept = now();
  let waiting: (() => void)[] = [];

  const isActive = (): boolean => [...lanes.values()].some(({ busy, limited }) => busy || limited);

  const start = (lane: Lane, standing: Standing, send: Send): void => {
    standing.busy = true;
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
        pumpSoon();
      });
  };

  const fail = (lane: Lane, standing: Standing, send: Send, failure: Failure): void => {
    switch (failure.kind) {
      case "limited":
        standing.limited = true;
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
        lanes.set(lane, standing);
      }
    }
  };

  /** Starts what may go now. @returns when to look again, if it is known */
  const startDue = (rank: Rank, at: number): number => {
    let again = Number.POSITIVE_INFINITY;
    for (const [lane, standing] of lanes) {
      if (lane.rank !== rank || standing.busy) continue;
      if (Math.max(standing.notBefore, standing.askAt) <= at) askLane(lane, standing, at);
      if (standing.busy || !lanes.has(lane)) continue;
      again = Math.min(again, Math.max(standing.notBefore, standing.askAt));
    }
    return again;
  };

  const askLane = (lane: Lane, standing: Standing, at: number): void => {
    // Many lanes may wait for one limit: what they hold is only worked out when it could go.
    const open = limits.openAt(lane.rank, at);
    standing.limited = open > at;
    if (open > at) {
      standing.askAt = open;
      return;
    }
    const send = lane.next(at);
    if (send === undefined) {
      lanes.delete(lane);
    } else if ("at" in send) {
      standing.askAt = Math.max(send.at, at + 1);
    } else {
      const free = limits.freeAt(send.key, lane.rank, at);
      standing.limited = free > at;
      if (free > at) standing.askAt = free;
      else start(lane, standing, send);
    }
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
    const again = Math.min(...ranks.map((rank) => startDue(rank, at)));
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
      pumpSoon();
    },
    kick() {
      for (const standing of lanes.values()) {
        standing.notBefore = 0;
        standing.failures = 0;
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
