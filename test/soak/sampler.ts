/**
 * Loaded into the program from outside, before it starts: every so often it reads what the program
 * holds, after a full collection, and writes it down. The program itself knows nothing of it.
 */
import { appendFileSync, readdirSync } from "node:fs";
import { loadavg } from "node:os";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { getHeapSpaceStatistics } from "node:v8";
import { isMainThread } from "node:worker_threads";
import { collector } from "../support/collector.ts";
import { compileForSpeed } from "./compile-for-speed.ts";

/** Where readings are written to, one JSON line each. */
export const READINGS = "WETSIDE_SOAK_READINGS";
/** How far apart they are, in seconds. */
export const EVERY = "WETSIDE_SOAK_EVERY";
/** When the program is warm, s from its start: nothing more is compiled for speed from then on. */
export const WARM = "WETSIDE_SOAK_WARM";

export type Reading = {
  /** Unix ms. */
  readonly at: number;
  /** After a full collection, MB of 10^6 bytes: values of the program, without its compiled code. */
  readonly heap: number;
  /** Compiled code, which goes on growing for as long as anything is found to be used often. */
  readonly code: number;
  readonly resident: number;
  /** Sockets, pipes, servers, requests under way: all that is open but timers. */
  readonly handles: number;
  readonly timers: number;
  /** Open files as the system counts them; 0 where it does not say. */
  readonly files: number;
  /** The longest that the loop was busy since the reading before, ms. */
  readonly busy: number;
  /** Processes of this machine that wanted to run in the last minute. */
  readonly load: number;
};

const codeBytes = (): number =>
  getHeapSpaceStatistics()
    .filter(({ space_name }) => /code|trusted/.test(space_name))
    .reduce((sum, { space_used_size }) => sum + space_used_size, 0);

const openFiles = (): number => {
  try {
    return readdirSync("/proc/self/fd").length;
  } catch {
    return 0;
  }
};

/** Reads what this process holds, now. */
export function createReader(): () => Reading {
  const collect = collector();
  const delay = monitorEventLoopDelay({ resolution: 5 });
  delay.enable();
  return () => {
    const busy = delay.max / 1e6;
    collect();
    const { heapUsed, rss } = process.memoryUsage();
    const code = codeBytes();
    const active = process.getActiveResourcesInfo();
    const timers = active.filter((one) => /^(Timeout|Immediate)$/.test(one)).length;
    // The collection itself is nobody's work: it is over before the count begins again.
    setTimeout(() => delay.reset(), 100).unref();
    return {
      at: Date.now(),
      heap: (heapUsed - code) / 1e6,
      code: code / 1e6,
      resident: rss / 1e6,
      handles: active.length - timers,
      timers,
      files: openFiles(),
      busy,
      load: loadavg()[0] ?? 0,
    };
  };
}

const path = process.env[READINGS];
if (isMainThread && path !== undefined) {
  const read = createReader();
  const every = Number(process.env[EVERY] ?? 20) * 1000;
  setTimeout(compileForSpeed, Number(process.env[WARM] ?? 0) * 1000, false).unref();
  setInterval(() => appendFileSync(path, `${JSON.stringify(read())}\n`), every).unref();
}
