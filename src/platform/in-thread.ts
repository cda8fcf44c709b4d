import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";

export type ThreadJob<Told, Made> = {
  /** The module that the thread runs. */
  readonly module: URL;
  /** What it is given, as `workerData`. */
  readonly given: unknown;
  /** For the fault: what ended, or took too long. */
  readonly what: string;
  /** Given up after so many ms; missing: never. */
  readonly patience?: number;
  /** So many MB of values it may hold at once; missing: as many as a process may. */
  readonly memory?: number;
  /** What is thrown instead of a fault where it took too long or held too much. */
  readonly beyond?: () => Error;
  /** Hears what the thread tells: what is made of it, or undefined while it goes on. */
  hear(told: Told, answer: (word: string) => void): Made | undefined;
};

/**
 * Long work, done by a thread of its own that ends with it: a cue that falls due meanwhile is not
 * late, and nothing is kept between two jobs.
 *
 * @throws what the thread or `hear` throws, or Error when it ends or takes too long without a result
 */
export function inThread<Told, Made>(job: ThreadJob<Told, Made>): Promise<Made> {
  return new Promise((resolve, reject) => {
    const { memory, beyond } = job;
    const worker = new Worker(fileURLToPath(job.module), {
      workerData: job.given,
      execArgv: [],
      // Beyond that the thread ends, and never the process.
      ...(memory === undefined ? {} : { resourceLimits: { maxOldGenerationSizeMb: memory } }),
    });
    const timer =
      job.patience === undefined
        ? undefined
        : setTimeout(
            () => fail(beyond?.() ?? new Error(`${job.what} took too long`)),
            job.patience,
          );
    const end = (): void => {
      clearTimeout(timer);
      void worker.terminate();
    };
    const fail = (fault: unknown): void => {
      end();
      reject(fault);
    };
    worker.on("message", (told: Told) => {
      try {
        const made = job.hear(told, (word) => worker.postMessage(word));
        if (made === undefined) return;
        end();
        resolve(made);
      } catch (fault) {
        fail(fault);
      }
    });
    worker.once("error", (fault) =>
      fail(isOutOfMemory(fault) && beyond !== undefined ? beyond() : fault),
    );
    worker.once("exit", (code) => fail(new Error(`${job.what} ended with ${code}`)));
  });
}

const isOutOfMemory = (fault: unknown): boolean =>
  fault instanceof Error && "code" in fault && fault.code === "ERR_WORKER_OUT_OF_MEMORY";
