import { parentPort, workerData } from "node:worker_threads";
import { loadCommands } from "../../commands/registry.ts";
import { openFrontEnd } from "../audio/front-end.ts";
import { toMono16k } from "../audio/to-mono-16k.ts";
import { openEngine } from "../engines/open-engine.ts";
import { grammarOf } from "../grammar/bench-grammar.ts";
import { WAKE_WORD } from "../wake-word.ts";
import { createListener } from "./listener.ts";
import type { EarSetup, FromEar, ToEar } from "./messages.ts";

/** The thread that hears. It keeps nothing of the sound but the utterance under way. */
const { engine: choice, form } = workerData as EarSetup;
const tell = (event: FromEar): void => parentPort?.postMessage(event);

const commands = await loadCommands();
const engine = openEngine(choice);
const toMono = toMono16k(form);
const listener = createListener(await openFrontEnd(), engine, tell);
let ready = false;

const take = async (message: ToEar): Promise<void> => {
  switch (message.kind) {
    case "names": {
      const net = grammarOf(commands, message.names, WAKE_WORD);
      const words = new Set(net.next.flatMap((row) => [...row.keys()]));
      listener.drop();
      await engine.prepare({ net, words });
      ready = true;
      return tell({ kind: "ready" });
    }
    case "sound":
      if (ready) await listener.feed(toMono(message.samples), message.at);
      return tell({ kind: "took" });
    case "press":
      return ready ? listener.press() : undefined;
    case "release":
      return listener.release(message.at);
    case "drop":
      return listener.drop();
  }
};

/** One after the other: an utterance that takes long to hear holds back the sound behind it. */
let queue: Promise<void> = Promise.resolve();
parentPort?.on("message", (message: ToEar) => {
  queue = queue
    .then(() => take(message))
    .catch((error: unknown) => {
      throw error;
    });
});
