import { type Hidden, hide } from "./hide.ts";
import type { WriteLine } from "./json-lines.ts";
import { type Facts, isWritten, type Log, type LogSetting } from "./log.ts";

export type LogParts = {
  readonly setting: LogSetting;
  readonly hidden: readonly Hidden[];
  /** Whether a person reads along: then sentences, else JSON lines. */
  readonly isTerminal: boolean;
  /** Takes text as it is to be shown on a terminal. */
  readonly write: (text: string) => void;
  /** Where JSON lines go; missing: the standard error, by a library loaded with the first line. */
  readonly lines?: (() => Promise<WriteLine>) | undefined;
};

export function createLog({ setting, hidden, isTerminal, write, lines }: LogParts): Log {
  const load = lines ?? (async () => (await import("./json-lines.ts")).jsonLines(setting));
  let writing: Promise<WriteLine> | undefined;
  let done: Promise<unknown> = Promise.resolve();

  const log = (level: Parameters<Log>[0], sentence: string, facts: Facts = {}): void => {
    if (!isWritten(level, setting)) return;
    const told = hide(sentence, hidden);
    const shown = Object.fromEntries(
      Object.entries(facts).map(([key, value]) => [
        key,
        typeof value === "string" ? hide(value, hidden) : value,
      ]),
    );
    if (isTerminal) {
      write(`${told}\n`);
      return;
    }
    writing ??= load();
    // A log that cannot be written to ends nothing: film may be wet.
    done = Promise.all([writing, done])
      .then(([line]) => line(level, told, shown))
      .catch(() => undefined);
  };
  return Object.assign(log, { flush: async () => void (await done) });
}
