import type { Folder } from "./folder.ts";
import { fileNameOf } from "./names.ts";
import { readText } from "./recover.ts";
import { unsealArchived } from "./seal.ts";
import { StoreError } from "./store-error.ts";

/**
 * An archived record out of a bench's folder of them; undefined when there is none of that name.
 *
 * @throws StoreError "unreadable" when its file is damaged
 */
export async function readArchived(folder: Folder, name: string): Promise<unknown> {
  const file = `${fileNameOf(name)}.json`;
  const text = await readText(folder, file);
  if (text === undefined) return undefined;
  const content = unsealArchived(text);
  if (content === undefined) {
    throw new StoreError(
      "unreadable",
      `The file ${folder.shown}/${file} is damaged, so I cannot show that record. I left it as it is.`,
    );
  }
  return content.record;
}
