import { join } from "node:path";
import { draft, ensureFolder, type Folder, publish, within } from "./folder.ts";
import { diskError } from "./store-error.ts";

/**
 * Copies what is damaged or about to be replaced into the folder `aside`, where nothing is ever
 * removed. A copy that is there already is not made again. Returns the name shown to the user.
 */
export async function keepAside(
  folder: Folder,
  name: string,
  content: Uint8Array,
): Promise<string> {
  const aside = within(folder, "aside");
  try {
    await ensureFolder(aside.files, aside.path);
    const taken = new Set(await aside.files.list(aside.path));
    let free = name;
    for (let copy = 2; taken.has(free); copy += 1) {
      const there = await aside.files.read(join(aside.path, free));
      if (there !== undefined && Buffer.compare(there, content) === 0) {
        return `${aside.shown}/${free}`;
      }
      free = name.replace(/(?=\.\w+$)/, `-${copy}`);
    }
    await draft(aside, free, content);
    await publish(aside, free);
    return `${aside.shown}/${free}`;
  } catch (error) {
    throw diskError(error, `keep a copy of ${folder.shown}/${name} before going on`);
  }
}
