import { join } from "node:path";
import { keepAside } from "./aside.ts";
import type { Folder } from "./folder.ts";
import type { Recovered } from "./recover.ts";
import { diskError } from "./store-error.ts";

/** Keeps every damaged file aside and says in plain words what was found and what it cost. */
export async function explainFaults(folder: Folder, bench: Recovered): Promise<string[]> {
  const notices: string[] = [];
  const costly = bench.faults.some((fault) => fault.kind === "damaged" || fault.kind === "missing");
  for (const fault of bench.faults) {
    const file = `${folder.shown}/${fault.name}`;
    switch (fault.kind) {
      case "torn":
        notices.push(
          "The last change to this bench was cut short, as by a power cut, and is dropped: it had not been confirmed. Everything before it is there.",
        );
        break;
      case "missing":
        notices.push(
          `The file ${file} is missing. I went on with the files that are there; changes that were only in it are lost.`,
        );
        break;
      case "snapshot":
        notices.push(
          `The file ${file} is damaged. I made the bench again from the files beside it${costly ? ", as far as they can be read" : ": nothing is lost"}. ${await copy(folder, fault.name)}`,
        );
        break;
      case "damaged":
        notices.push(
          `The file ${file} is damaged at line ${fault.line}. Every change before that line is there; that one${fault.after > 0 ? ` and the ${fault.after} after it are` : " is"} lost. ${await copy(folder, fault.name)}`,
        );
        break;
    }
  }
  return notices;
}

async function copy(folder: Folder, name: string): Promise<string> {
  const content = await readBytes(folder, name);
  return `The damaged file is kept aside as ${await keepAside(folder, name, content)}.`;
}

async function readBytes(folder: Folder, name: string): Promise<Uint8Array> {
  try {
    return (await folder.files.read(join(folder.path, name))) ?? new Uint8Array();
  } catch (error) {
    throw diskError(error, `read ${folder.shown}/${name}`);
  }
}
