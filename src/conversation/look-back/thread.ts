import { parentPort } from "node:worker_threads";
import { loadCommands } from "../../commands/registry.ts";
import { nodeFileSystem } from "../../platform/file-system.ts";
import { readArchived } from "../../store/read-archived.ts";
import { recallPast } from "../recall-past.ts";
import { Mirror } from "./mirror.ts";
import type { Asked, Told } from "./words.ts";

const tell = (told: Told): void => parentPort?.postMessage(told);

const mirror = new Mirror(await loadCommands(), (archive, { bench }) => {
  const folder = { files: nodeFileSystem, path: archive, shown: "archive" };
  return recallPast({ recall: (_, name) => readArchived(folder, name) }, bench.id, bench);
});

parentPort?.on("message", (asked: Asked) => {
  if (asked.kind !== "turn") {
    mirror.take(asked);
    return;
  }
  const { ticket } = asked;
  mirror.turn(asked).then(
    (turn) => tell({ ticket, turn }),
    (fault: unknown) => tell({ ticket, fault }),
  );
});
