import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Picture } from "./temperature-chart.ts";

/** A picture that takes longer than this is given up, ms. */
const PATIENCE = 20_000;

/**
 * A picture as PNG, drawn by a thread of its own: a cue that falls due meanwhile is not late. The
 * thread ends with its picture, so that nothing is kept between two of them.
 */
export function toPng({ svg, width }: Picture): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(fileURLToPath(new URL("./png-worker.ts", import.meta.url)), {
      workerData: { svg, width },
      execArgv: [],
    });
    const stop = (): void => {
      clearTimeout(timer);
      void worker.terminate();
    };
    const timer = setTimeout(() => {
      stop();
      reject(new Error("drawing the picture took too long"));
    }, PATIENCE);
    worker.once("message", (png: Uint8Array) => {
      stop();
      resolve(png);
    });
    worker.once("error", (fault) => {
      stop();
      reject(fault);
    });
    worker.once("exit", (code) => {
      clearTimeout(timer);
      reject(new Error(`drawing the picture ended with ${code}`));
    });
  });
}
