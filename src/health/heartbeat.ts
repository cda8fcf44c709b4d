import { rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { z } from "zod";

/** The file of the data folder in which a running program says that it is well. */
export const HEARTBEAT = "heartbeat.json";

/** How often, ms. */
const EVERY = 10_000;

export const beatSchema = z.object({
  /** When, Unix milliseconds. */
  at: z.number(),
  /** When the next is to come, ms later. */
  every: z.number().positive(),
});
export type Beat = z.infer<typeof beatSchema>;

export type Heart = {
  /** Takes the file away: the program has left, and is not stuck. */
  stop(): Promise<void>;
};

/**
 * Writes the file anew again and again, on the thread that gives the cues: where that stands still,
 * or the disk takes nothing, the file grows old.
 */
export function startHeartbeat(
  data: string,
  onFault: (error: unknown) => void,
  every = EVERY,
): Heart {
  const path = join(data, HEARTBEAT);
  let writing: Promise<void> = Promise.resolve();
  let failing = false;
  const write = async (): Promise<void> => {
    const beat: Beat = { at: Date.now(), every };
    // Whoever looks sees a whole one.
    await writeFile(`${path}.new`, JSON.stringify(beat), { mode: 0o600 });
    await rename(`${path}.new`, path);
  };
  const beat = (): void => {
    writing = writing.then(write).then(
      () => {
        failing = false;
      },
      (error: unknown) => {
        // Said once, not every time.
        if (!failing) onFault(error);
        failing = true;
      },
    );
  };
  beat();
  const timer = setInterval(beat, every);
  timer.unref();
  return {
    async stop() {
      clearInterval(timer);
      await writing;
      await rm(path, { force: true }).catch(() => undefined);
    },
  };
}
