import { rename, rm, utimes, writeFile } from "node:fs/promises";
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
 * Writes the file anew again and again, on the thread that gives the cues: where that stands still
 * the file grows old. Where it cannot be written it is touched.
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
    try {
      // Whoever looks sees a whole one.
      await writeFile(`${path}.new`, JSON.stringify(beat), { mode: 0o600 });
      await rename(`${path}.new`, path);
    } catch (error) {
      // A full disk still takes the time of a file, and is no reason to be restarted for.
      const now = new Date(beat.at);
      await utimes(path, now, now).catch(() => undefined);
      throw error;
    }
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
