import { expect, test } from "vitest";
import { instant } from "../../../domain/units/quantity.ts";
import type { Clock } from "../../../platform/clock.ts";
import { Limits } from "./limits.ts";
import { createSender, type Lane, type Send } from "./sender.ts";

const KEY = "POST /channels/1/messages";
const headers = (left: number, seconds: number) =>
  new Headers({
    "x-ratelimit-limit": "5",
    "x-ratelimit-remaining": String(left),
    "x-ratelimit-reset-after": String(seconds),
  });

/** A clock whose timers go off when told to, and what was asked of it. */
function handClock() {
  const timers: (() => void)[] = [];
  const clock: Clock = {
    monotonic: () => 0,
    wall: () => instant(0),
    uptime: () => 0,
    setTimer(_, call) {
      timers.push(call);
      return () => void timers.splice(timers.indexOf(call), 1);
    },
  };
  return { clock, ring: () => timers.splice(0).forEach((call) => void call()) };
}

const settle = (): Promise<void> => new Promise((done) => setImmediate(done));

test("a lane held back by a limit is asked once, however fast the clock runs meanwhile", async () => {
  const { clock } = handClock();
  const limits = new Limits();
  limits.learn(KEY, 200, headers(0, 0.01), 0);
  let time = 0;
  let asked = 0;
  const send: Send = {
    key: KEY,
    perform: async () => undefined,
    accepted: () => undefined,
    refused: () => undefined,
  };
  const lane: Lane = {
    rank: "cue",
    next() {
      asked += 1;
      if (asked > 100) throw new Error("asked without end");
      return send;
    },
  };
  const sender = createSender({
    clock,
    limits,
    // Every look at it finds it 6 ms on: the limit is over while the lane is still being looked at.
    now: () => {
      time += 3;
      return time;
    },
    onFault: (error) => {
      throw error;
    },
    onBadToken: () => undefined,
  });
  sender.wake(lane);
  await settle();
  expect(asked).toBe(1);
  sender.stop();
});

test("cues go before answers and edits, each rank in the order it was woken", async () => {
  const { clock } = handClock();
  const sent: string[] = [];
  const laneOf = (name: string, rank: Lane["rank"]): Lane => {
    let done = false;
    return {
      rank,
      next: () =>
        done
          ? undefined
          : {
              key: `POST /${name}`,
              perform: async () => void sent.push(name),
              accepted: () => {
                done = true;
              },
              refused: () => undefined,
            },
    };
  };
  const sender = createSender({
    clock,
    limits: new Limits(),
    now: () => 1000,
    onFault: (error) => {
      throw error;
    },
    onBadToken: () => undefined,
  });
  for (const [name, rank] of [
    ["edit", "edit"],
    ["answer one", "other"],
    ["answer two", "other"],
    ["cue one", "cue"],
    ["cue two", "cue"],
  ] as const) {
    sender.wake(laneOf(name, rank));
  }
  await sender.idle();
  expect(sent).toEqual(["cue one", "cue two", "answer one", "answer two", "edit"]);
});

test("what waits after a failure is tried when its time has come, and at once when the way is open", async () => {
  const { clock, ring } = handClock();
  let time = 0;
  let tries = 0;
  const lane: Lane = {
    rank: "other",
    next: () => ({
      key: KEY,
      perform: async () => {
        tries += 1;
        throw new TypeError("fetch failed");
      },
      accepted: () => undefined,
      refused: () => undefined,
    }),
  };
  const sender = createSender({
    clock,
    limits: new Limits(),
    now: () => time,
    onFault: () => undefined,
    onBadToken: () => undefined,
  });
  sender.wake(lane);
  await settle();
  expect(tries).toBe(1);
  ring();
  await settle();
  expect(tries).toBe(1);
  time = 250;
  ring();
  await settle();
  expect(tries).toBe(2);
  sender.kick();
  await settle();
  expect(tries).toBe(3);
  sender.stop();
});
