import { EventEmitter } from "node:events";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { aborted, listenForStop } from "./stop-signals.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function setUp() {
  const signals = new EventEmitter();
  const ended: number[] = [];
  const stop = listenForStop({
    on: (name, heard) => void signals.on(name, heard),
    off: (name, heard) => void signals.off(name, heard),
    end: (code) => void ended.push(code),
    patience: 10_000,
  });
  return { signals, ended, stop };
}

test.each(["SIGINT", "SIGTERM"])("the first %s asks, and ends nothing", async (name) => {
  const { signals, ended, stop } = setUp();
  expect(stop.signal.aborted).toBe(false);
  signals.emit(name);
  await aborted(stop.signal);
  expect(ended).toEqual([]);
});

test("the second ends it at once, with the code a shell would report", () => {
  const { signals, ended } = setUp();
  signals.emit("SIGTERM");
  signals.emit("SIGINT");
  expect(ended).toEqual([130]);
});

test("leaving that takes too long is cut short", () => {
  const { signals, ended } = setUp();
  signals.emit("SIGTERM");
  vi.advanceTimersByTime(9_999);
  expect(ended).toEqual([]);
  vi.advanceTimersByTime(1);
  expect(ended).toEqual([1]);
});

test("once it has left, nothing ends it and nothing is listened to", () => {
  const { signals, ended, stop } = setUp();
  signals.emit("SIGTERM");
  stop.off();
  vi.advanceTimersByTime(60_000);
  expect(ended).toEqual([]);
  expect(signals.listenerCount("SIGTERM") + signals.listenerCount("SIGINT")).toBe(0);
});
