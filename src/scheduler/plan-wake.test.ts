import fc from "fast-check";
import { expect, test } from "vitest";
import { instant } from "../domain/units/quantity.ts";
import { planWake } from "./plan-wake.ts";

test.each([
  { due: undefined, now: 1000, wake: { kind: "idle" } },
  { due: 1000, now: 1000, wake: { kind: "fire", lateMs: 0 } },
  { due: 1000, now: 1007.5, wake: { kind: "fire", lateMs: 7.5 } },
  { due: 1000, now: 999.9, wake: { kind: "wait", ms: 1 } },
  { due: 1000, now: 997.5, wake: { kind: "wait", ms: 3 } },
  { due: 100_000, now: 1000, wake: { kind: "wait", ms: 500 } },
])("due $due at $now: $wake.kind", ({ due, now, wake }) => {
  expect(planWake(due === undefined ? undefined : instant(due), instant(now))).toEqual(wake);
});

test("nothing is fired early, and no wait is long enough for a timer to overflow", () => {
  const time = fc.double({ min: -1e12, max: 1e12, noNaN: true });
  const law = fc.property(time, time, (due, now) => {
    const wake = planWake(instant(due), instant(now));
    if (wake.kind === "fire") expect(now).toBeGreaterThanOrEqual(due);
    if (wake.kind === "wait") expect(wake.ms).toSatisfy((ms: number) => ms >= 1 && ms <= 500);
  });
  fc.assert(law);
});
