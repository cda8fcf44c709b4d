import { announce } from "../../src/conversation/announce.ts";
import { type Bench, newBench } from "../../src/domain/session/bench.ts";
import { decide, nextDue } from "../../src/domain/session/decide.ts";
import { rehearse } from "../../src/domain/session/rehearsal.ts";
import type { Run } from "../../src/domain/session/run.ts";
import { type Instant, instant, later } from "../../src/domain/units/quantity.ts";
import { systemClock } from "../../src/platform/clock.ts";
import { createSteadyClock } from "../../src/platform/steady-clock.ts";
import { createScheduler } from "../../src/scheduler/scheduler.ts";
import { runOf, stageOf, washOf } from "../support/runs.ts";
import { seeded } from "../support/seeded.ts";
import { percentile } from "./percentile.ts";
import { bracket, type Punctuality, TOLERANCE_MS } from "./scheduler.ts";

const RUNS = 500;
/** Far faster than any real evening: what 500 real runs ask for in half an hour comes in a minute. */
const SPEED = 30;
const SPREAD_MS = 4000;
/** A run of four baths as fast as a rehearsal goes, its first pour somewhere in the first seconds. */
function benchAt(id: number, now: Instant, chance: () => number): Bench {
  const stages = [stageOf(), stageOf({ bath: "blix", kind: "blix" }), washOf(), stageOf()];
  const plan = runOf(stages, { id: "run-1", tank: `Tank ${id}` });
  const made = rehearse(plan, SPEED);
  if (!made.ok) throw new Error(made.error.kind);
  const from = instant(Math.round(now + 200 + chance() * SPREAD_MS));
  const run: Run = {
    ...made.value,
    plannedAt: now,
    cuedUntil: now,
    stages: made.value.stages.map((stage, n) => (n === 0 ? { ...stage, pourAt: from } : stage)),
  };
  return { ...newBench(String(id), "UTC"), runs: { [run.id]: run } };
}

/**
 * Many benches with a run each on one scheduler: every cue is decided, put in words and timed by
 * the monotonic clock against the instant it was due.
 */
export async function benchManyRuns(runs = RUNS): Promise<Punctuality> {
  const clock = createSteadyClock(systemClock);
  const chance = seeded(7);
  const benches = new Map<string, Bench>();
  const late: number[] = [];
  const done = Promise.withResolvers<void>();
  let told = 0;
  const { start, now } = bracket(() => clock.now());
  const scheduler = createScheduler({
    clock,
    timers: systemClock,
    onDue(key) {
      const bench = benches.get(key);
      if (bench === undefined) return;
      const at = instant(Math.floor(clock.now()));
      const after = decide(bench, at);
      told += announce(after.bench, after.happenings, at).length;
      const heard = performance.now();
      for (const { event } of after.happenings) late.push(heard - (start + (event.at - now)));
      benches.set(key, after.bench);
      const next = nextDue(after.bench);
      scheduler.schedule(key, next);
      if (next === undefined) benches.delete(key);
      if (benches.size === 0) done.resolve();
    },
    onFault: done.reject,
  });
  for (let id = 0; id < runs; id += 1) {
    const bench = benchAt(id, later(now, 0), chance);
    benches.set(bench.id, bench);
    scheduler.schedule(bench.id, nextDue(bench));
  }
  await done.promise;
  scheduler.stop();
  if (told === 0) throw new Error("no cue was told");
  return {
    cues: late.length,
    early: late.filter((ms) => ms < -TOLERANCE_MS).length,
    p50: percentile(late, 50),
    p99: percentile(late, 99),
    max: percentile(late, 100),
  };
}
