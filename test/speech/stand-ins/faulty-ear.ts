import { parentPort, workerData } from "node:worker_threads";

/**
 * An ear that hears nothing and breaks as it is told by the sound: a first sample of 1 throws, of 2
 * ends the thread, of 3 keeps it busy for a while.
 */
const { engine } = workerData as { engine: { command: readonly string[] } };
if (engine.command[0] === "broken") throw new Error("the model is not there");

parentPort?.on("message", (message: { kind: string; samples?: Int16Array; names?: unknown }) => {
  if (message.kind === "names") parentPort?.postMessage({ kind: "ready" });
  if (message.kind !== "sound") return;
  const order = message.samples?.[0];
  if (order === 1) throw new Error("out of tune");
  if (order === 2) process.exit(3);
  if (order === 3) {
    const until = performance.now() + 300;
    while (performance.now() < until);
  }
  parentPort?.postMessage({ kind: "took" });
});
