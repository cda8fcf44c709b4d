import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { once } from "node:events";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { z } from "zod";

/** How long anything is waited for, in ms: ages, so that a busy machine fails no test. */
const AGES = 30_000;

const ROOT = join(import.meta.dirname, "../..");

/** A line of `--json`, exactly: a key more or less is a change of the public form. */
export const lineSchema = z.strictObject({
  at: z.iso.datetime(),
  kind: z.enum(["reply", "cue", "reminder", "refusal", "question"]),
  title: z.string().min(1),
  lines: z.array(z.string()),
  say: z.string().min(1),
  values: z.record(z.string(), z.json()),
  origins: z.record(z.string(), z.string().min(1)),
  cautions: z.array(z.string()),
});
export type Line = z.infer<typeof lineSchema>;

export const readLines = (output: string): readonly Line[] =>
  output
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => lineSchema.parse(JSON.parse(line)));

/** The program's entries, as `package.json` names them. */
export type Script = "start" | "chat" | "doctor" | "health" | "backup";

/** How one of the program's entries is started: the words of its script in `package.json`. */
export async function commandLine(script: Script): Promise<readonly string[]> {
  const file = JSON.parse(await readFile(join(ROOT, "package.json"), "utf8"));
  const { scripts } = z.object({ scripts: z.record(z.string(), z.string()) }).parse(file);
  const [node, ...words] = (scripts[script] ?? "").split(" ");
  if (node !== "node") throw new Error(`The script ${script} does not start with node.`);
  return words;
}

export type Program = {
  readonly pid: number | undefined;
  /** Lines printed so far. */
  readonly lines: readonly string[];
  /** What it has written to the standard error so far. */
  complaint(): string;
  say(...messages: readonly string[]): void;
  /** Waits until the lines satisfy a condition. @throws when the process ends before, or takes ages */
  until(condition: (lines: readonly string[]) => boolean): Promise<void>;
  /** Reads nothing more of what it prints. */
  hangUp(): void;
  /** Nothing more will be said to it. */
  closeInput(): void;
  /** Asks it something the way a service manager does, and does not wait. */
  signal(name: NodeJS.Signals): void;
  /** Asks it to end, and waits until it has. */
  terminate(): Promise<Ended>;
  /** Ends it without a chance to do anything more. */
  kill(): Promise<void>;
  /** Closes its input and waits for its end. */
  finish(): Promise<Ended>;
};

export type Ended = {
  readonly code: number | null;
  readonly output: string;
  readonly complaint: string;
};

/** Starts the program itself, script mode unless told otherwise. */
export async function startProgram(
  options: readonly string[],
  script: Script = "chat",
  environment: Readonly<Record<string, string>> = {},
  patience = AGES,
): Promise<Program> {
  const words = await commandLine(script);
  const child: ChildProcessWithoutNullStreams = spawn(process.execPath, [...words, ...options], {
    cwd: ROOT,
    env: { ...process.env, ...environment },
  });
  const lines: string[] = [];
  let complaint = "";
  child.stderr.setEncoding("utf8").on("data", (piece: string) => {
    complaint += piece;
  });
  // A process that was killed or refused to start does not read what it is sent.
  child.stdin.on("error", () => undefined);
  const reader = createInterface({ input: child.stdout });
  const end = Promise.all([once(child, "exit"), once(reader, "close")]);
  let over = false;
  let changed = Promise.withResolvers<void>();
  const wake = (): void => {
    changed.resolve();
    changed = Promise.withResolvers();
  };
  reader.on("line", (line) => {
    lines.push(line);
    wake();
  });
  void end.then(() => {
    over = true;
    wake();
  });
  const ages = setTimeout(() => child.kill("SIGKILL"), patience);
  void end.then(() => clearTimeout(ages));
  const ended = (): Ended => ({
    code: child.exitCode,
    output: lines.map((line) => `${line}\n`).join(""),
    complaint,
  });
  return {
    pid: child.pid,
    lines,
    complaint: () => complaint,
    say: (...messages) => void child.stdin.write(messages.map((one) => `${one}\n`).join("")),
    async until(condition) {
      while (!condition(lines)) {
        if (over) throw new Error(`It ended too early: ${complaint}${lines.join("\n")}`);
        await changed.promise;
      }
    },
    hangUp() {
      child.stdout.destroy();
      reader.close();
    },
    async kill() {
      child.kill("SIGKILL");
      await end;
    },
    signal: (name) => void child.kill(name),
    closeInput: () => void child.stdin.end(),
    async terminate() {
      child.kill("SIGTERM");
      await end;
      return ended();
    },
    async finish() {
      child.stdin.end();
      await end;
      return ended();
    },
  };
}

/** Runs the program from the first to the last of these messages. */
export async function runProgram(
  options: readonly string[],
  messages: readonly string[],
  script: Script = "chat",
  environment: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  const program = await startProgram(options, script, environment);
  program.say(...messages);
  return program.finish();
}
