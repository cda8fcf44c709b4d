import { readFileSync, readlinkSync } from "node:fs";
import { hostname } from "node:os";

/** Tells one process from every other, also from a later one that was given the same number. */
export type ProcessIdentity = {
  readonly pid: number;
  /** When it began, as the system counts; empty where the system does not say. */
  readonly began: string;
  /** The machine, its present start and the process's numbering; numbers mean nothing elsewhere. */
  readonly machine: string;
};

function attempt(read: () => string): string {
  try {
    return read().trim();
  } catch {
    return "";
  }
}

/** Field 22 of the process's status line; names in it may hold spaces and brackets. */
function beginning(pid: number): string {
  const status = attempt(() => readFileSync(`/proc/${pid}/stat`, "utf8"));
  return status.slice(status.lastIndexOf(")") + 2).split(" ")[19] ?? "";
}

const machine = (): string =>
  [
    hostname(),
    attempt(() => readFileSync("/proc/sys/kernel/random/boot_id", "utf8")),
    attempt(() => readlinkSync("/proc/self/ns/pid")),
  ].join(" ");

export const thisProcess = (): ProcessIdentity => ({
  pid: process.pid,
  began: beginning(process.pid),
  machine: machine(),
});

/**
 * Whether a process still runs. "unknown" when it cannot be told from here: another machine or
 * container, or a number that runs but may have been given to another program since.
 */
export function lookFor(sought: ProcessIdentity): "alive" | "dead" | "unknown" {
  if (sought.machine !== machine()) return "unknown";
  try {
    process.kill(sought.pid, 0);
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ESRCH") return "dead";
  }
  const began = beginning(sought.pid);
  if (began === "" || sought.began === "") return "unknown";
  return began === sought.began ? "alive" : "dead";
}
