import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

export type Child = {
  /** Lines printed so far. */
  readonly lines: readonly string[];
  /** Waits until the lines satisfy a condition, or the process ends. */
  until(condition: (lines: readonly string[]) => boolean): Promise<void>;
  kill(signal: NodeJS.Signals): void;
  /** Closes its input and waits for its end. */
  finish(): Promise<void>;
  /** Waits for its end and for the last of its output. */
  ended(): Promise<void>;
};

/** Runs one of the scripts in this folder in a process of its own. */
export function startChild(script: string, ...parameters: readonly string[]): Child {
  const path = join(import.meta.dirname, script);
  const child: ChildProcessWithoutNullStreams = spawn(process.execPath, [path, ...parameters]);
  const lines: string[] = [];
  const reader = createInterface({ input: child.stdout });
  const end = Promise.all([once(child, "exit"), once(reader, "close")]);
  let over = false;
  void end.then(() => {
    over = true;
  });
  let changed = Promise.withResolvers<void>();
  const wake = (): void => {
    changed.resolve();
    changed = Promise.withResolvers();
  };
  reader.on("line", (line) => {
    lines.push(line);
    wake();
  });
  void end.then(wake);
  return {
    lines,
    async until(condition) {
      while (!over && !condition(lines)) await changed.promise;
    },
    kill: (signal) => void child.kill(signal),
    async finish() {
      child.stdin.end();
      await end;
    },
    async ended() {
      await end;
    },
  };
}

/** Lends a folder for as long as `use` takes. */
export async function withFolder<T>(use: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), "wetside-"));
  try {
    return await use(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
