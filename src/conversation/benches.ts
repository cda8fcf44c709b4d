import { setImmediate as nextTurn } from "node:timers/promises";
import type { Bench } from "../domain/session/bench.ts";
import { type Instant, instant } from "../domain/units/quantity.ts";
import type { Clock } from "../platform/clock.ts";
import { createSteadyClock, type SteadyClock } from "../platform/steady-clock.ts";
import type { Reply } from "../reply/reply.ts";
import { createScheduler } from "../scheduler/scheduler.ts";
import type { BenchKeeper } from "./bench-keeper.ts";
import type { Message } from "./turn.ts";

/** What is told while work with files goes on, before the answer. */
export type Progress = (reply: Reply) => void;

/** One bench as its channel holds it. */
export type Bell = {
  now(): Instant;
  /** A sentence and its answer; the next cue is armed again after it. */
  hear(text: string, who: string, progress?: Progress): Promise<Reply>;
  /** The same for a message that need not be a sentence. */
  take(message: Message, progress?: Progress): Promise<Reply>;
  /** Resolves once no cue is to come. */
  quiet(): Promise<void>;
  /** Tells nothing of this bench from here on. */
  stop(): void;
};

export type BenchParts = {
  readonly keeper: BenchKeeper;
  /**
   * Returns once what is told is out of the program's hands, as far as the channel can see to it.
   * `bench` is the bench after what is told.
   */
  readonly tell: (replies: readonly Reply[], at: Instant, bench: Bench) => void | Promise<void>;
  /** What went wrong while a cue was given; the bench goes on. */
  readonly onFault: (error: unknown) => void;
  /** After a message or the clock has changed the bench. */
  readonly onChange?: ((at: Instant) => void) | undefined;
};

export type BenchesParts = {
  readonly clock: Clock;
  /** Starts the periodic look and returns how to stop it; left out where time is not real. */
  readonly housekeep?: ((look: () => void) => () => void) | undefined;
};

export type Benches = {
  now(): Instant;
  /** Keeps a bench in step with real time from here on: gives its cues when due, never before. */
  join(id: string, parts: BenchParts): Bell;
  /** Stops the clock of all of them. */
  stop(): void;
};

/** Further apart than this, ms, the wall clock was set. */
const SET = 1000;
/** A bench whose cues cannot be kept is tried again after so long, ms, and each time later. */
const FIRST_RETRY = 1000;
const LAST_RETRY = 30_000;

type Member = BenchParts & {
  waiting: (() => void)[];
  /** How long it is left alone after a fault, ms; 0 while all is well. */
  backOff: number;
  notBefore: number;
};

/** All benches of the process: one heap and one timer wake each at its next due instant. */
export function createBenches({ clock, housekeep }: BenchesParts): Benches {
  const steady: SteadyClock = createSteadyClock(clock);
  /** Whole milliseconds, as instants are; rounded down, so that nothing is ever early. */
  const now = (): Instant => instant(Math.floor(steady.now()));
  const members = new Map<string, Member>();
  /** Benches on which a run is open. */
  const running = new Set<string>();

  /** A bench that cannot tell what is next there is asked again by the periodic look. */
  const arm = (id: string): void => {
    const member = members.get(id);
    if (member === undefined) return;
    try {
      armMember(id, member);
    } catch (error) {
      member.onFault(error);
    }
  };

  const armMember = (id: string, member: Member): void => {
    const { keeper } = member;
    const due = keeper.nextDue();
    const cue = keeper.nextCue();
    const again = due === undefined ? due : instant(Math.max(due, member.notBefore));
    // A reminder that cannot be told holds up no cue.
    const failed = member.notBefore - member.backOff;
    const waits = cue !== undefined && again !== undefined && failed < cue && cue < again;
    scheduler.schedule(id, waits ? cue : again);
    // Reminders may lie weeks ahead: only runs are waited for.
    if (cue !== undefined) running.add(id);
    else {
      running.delete(id);
      for (const done of member.waiting) done();
      member.waiting = [];
    }
  };

  /** A clock that was set while no run was open is simply right again. */
  const believeWall = (): void => {
    if (running.size === 0 && Math.abs(steady.apart()) > SET) steady.follow();
  };

  const ring = async (id: string, by: "tick" | "look" = "tick"): Promise<void> => {
    const member = members.get(id);
    if (member === undefined) return;
    believeWall();
    const at = now();
    const before = member.keeper.record.bench;
    try {
      await member.keeper[by](at, (replies, bench) => member.tell(replies, at, bench));
      member.backOff = 0;
      member.notBefore = 0;
    } catch (error) {
      // What was told and could not be kept is behind it: the next cue is given in time.
      const stuck = (member.keeper.nextDue() ?? Number.POSITIVE_INFINITY) <= at;
      if (stuck) {
        member.backOff = Math.min(LAST_RETRY, Math.max(FIRST_RETRY, member.backOff * 2));
        member.notBefore = at + member.backOff;
      }
      member.onFault(error);
    }
    if (member.keeper.record.bench !== before) member.onChange?.(at);
    arm(id);
  };

  /** Benches of which reminders alone are due, and whether they are being told. */
  const patient: string[] = [];
  let reminding = false;
  /**
   * The hour of the daily message is the same for many: each is told in a turn of its own, so that
   * the cues of others come in between.
   */
  const remind = async (): Promise<void> => {
    if (reminding) return;
    reminding = true;
    for (let id = patient.shift(); id !== undefined; id = patient.shift()) {
      void ring(id);
      await nextTurn();
    }
    reminding = false;
  };

  const scheduler = createScheduler({
    clock: steady,
    timers: clock,
    onDue: (id, at) => {
      const cue = members.get(id)?.keeper.nextCue();
      if (cue !== undefined && cue <= at) void ring(id);
      else {
        // Its own next cue is not waited for either.
        scheduler.schedule(id, cue);
        patient.push(id);
        void remind();
      }
    },
    onFault: (error) => {
      for (const { onFault } of members.values()) onFault(error);
    },
  });

  let looking = false;
  /**
   * One after the other, and each in a turn of its own: a look that has nothing to write never
   * leaves the thread, so that hundreds of them would hold up every cue and every answer.
   */
  const look = async (): Promise<void> => {
    if (looking) return;
    looking = true;
    let isFirst = true;
    for (const id of [...members.keys()]) {
      if (!isFirst) await nextTurn();
      isFirst = false;
      await ring(id, "look");
    }
    looking = false;
  };
  const endHousekeeping = housekeep?.(() => void look());

  const take = async (id: string, message: Message, progress?: Progress): Promise<Reply> => {
    const member = members.get(id);
    if (member === undefined) throw new Error("This bench was let go of.");
    const aid = member.keeper.firstAid(message, now());
    if (aid !== undefined) return aid;
    const before = member.keeper.record.bench;
    try {
      // What has come due is told before the answer, also when its timer has not gone off yet.
      const [, reply] = await Promise.all([ring(id), member.keeper.hear(message, now(), progress)]);
      return reply;
    } finally {
      if (member.keeper.record.bench !== before) member.onChange?.(now());
      arm(id);
    }
  };

  return {
    now,
    join(id, parts) {
      const member: Member = { ...parts, waiting: [], backOff: 0, notBefore: 0 };
      members.set(id, member);
      arm(id);
      return {
        now,
        hear: (text, who, progress) => take(id, { text, who }, progress),
        take: (message, progress) => take(id, message, progress),
        quiet: () =>
          parts.keeper.nextCue() === undefined
            ? Promise.resolve()
            : new Promise((done) => {
                member.waiting.push(done);
              }),
        stop() {
          if (members.get(id) !== member) return;
          members.delete(id);
          running.delete(id);
          scheduler.schedule(id, undefined);
          parts.keeper.release();
        },
      };
    },
    stop() {
      endHousekeeping?.();
      scheduler.stop();
    },
  };
}
