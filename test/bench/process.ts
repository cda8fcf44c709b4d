import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { withFolder } from "../support/child.ts";
import { startProgram } from "../support/program.ts";
import { percentile } from "./percentile.ts";

export type Start = {
  readonly starts: number;
  /** In ms, from starting the process to the first of its output. */
  readonly p50: number;
  readonly max: number;
};

/** Starts script mode again and again, each time on a new bench with one sentence to answer. */
export const benchStart = (starts = 10): Promise<Start> =>
  withFolder(async (folder) => {
    const took: number[] = [];
    // One more than counted: the first fills the caches, of the disk and of compiled code.
    for (let start = 0; start <= starts; start += 1) {
      const options = ["--data", join(folder, String(start))];
      const begin = performance.now();
      const program = await startProgram([...options, "--simulate", "2026-11-28T19:30:00Z"]);
      program.say("how much water for a quart of developer");
      await program.until((lines) => lines.length > 0);
      if (start > 0) took.push(performance.now() - begin);
      await program.finish();
    }
    return { starts, p50: percentile(took, 50), max: percentile(took, 100) };
  });

export type Memory = {
  /** Held while a run is open, in MB of 10^6 bytes; undefined where the system does not say. */
  readonly resident: number | undefined;
};

/** What a bench holds in memory in real time, with a run open and some sentences said. */
export const benchMemory = (sentences = 200): Promise<Memory> =>
  withFolder(async (folder) => {
    const program = await startProgram(["--data", folder]);
    try {
      program.say("start blix for 2 hours tank north", "ready", "in");
      for (let at = 0; at < sentences; at += 1) program.say(`note number ${at}`, "left");
      const last = `number ${sentences - 1}`;
      await program.until((lines) => lines.some((line) => line.endsWith(last)));
      const status = await readFile(`/proc/${program.pid}/status`, "utf8").catch(() => "");
      const kibibytes = /^VmRSS:\s+(\d+) kB$/m.exec(status)?.[1];
      return { resident: kibibytes === undefined ? undefined : (Number(kibibytes) * 1024) / 1e6 };
    } finally {
      await program.kill();
    }
  });
