/** Somebody, or a service manager, asks the program to end. */
export type Stop = {
  /** Aborted by the first signal. */
  readonly signal: AbortSignal;
  /** Nothing is listened to any more. */
  off(): void;
};

export type StopParts = {
  readonly on: (name: NodeJS.Signals, heard: () => void) => void;
  readonly off: (name: NodeJS.Signals, heard: () => void) => void;
  /** Ends the process at once, with an exit code. */
  readonly end: (code: number) => void;
  /** How long leaving may take, ms. */
  readonly patience: number;
};

/** With what a shell reports a process that a signal ended: 128 and the signal's number. */
const codes = { SIGINT: 130, SIGTERM: 143 } as const;
const names = Object.keys(codes) as (keyof typeof codes)[];

/**
 * The first signal asks the program to leave in good order. The second ends it at once, and so does
 * the end of patience: what was answered is on disk by then.
 */
export function listenForStop({ on, off, end, patience }: StopParts): Stop {
  const asked = new AbortController();
  let limit: NodeJS.Timeout | undefined;
  const hear = (name: keyof typeof codes) => (): void => {
    if (asked.signal.aborted) {
      end(codes[name]);
      return;
    }
    limit = setTimeout(() => end(1), patience);
    limit.unref();
    asked.abort();
  };
  const listeners = names.map((name) => ({ name, heard: hear(name) }));
  for (const { name, heard } of listeners) on(name, heard);
  return {
    signal: asked.signal,
    off() {
      clearTimeout(limit);
      for (const { name, heard } of listeners) off(name, heard);
    },
  };
}

/** Resolves when a signal is aborted. */
export const aborted = (signal: AbortSignal): Promise<void> =>
  new Promise((done) => {
    if (signal.aborted) done();
    else signal.addEventListener("abort", () => done(), { once: true });
  });
