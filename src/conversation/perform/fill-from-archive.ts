import { ExportError } from "../../export/export-error.ts";
import { PICTURES } from "../../export/files.ts";
import type { OpenExport } from "../../export/open-export.ts";
import { putPictures } from "../../export/put-pictures.ts";
import { checkExport } from "../../export/read-export.ts";
import { nodeFileSystem } from "../../platform/file-system.ts";
import { fillBench } from "../../store/fill-bench.ts";
import { within } from "../../store/folder.ts";
import type { Filled } from "../../store/store.ts";
import { diskError, StoreError } from "../../store/store-error.ts";
import { type BenchRecord, recordSchema } from "../record.ts";

/**
 * Puts all of an archive into a folder nobody reads yet, its pictures within it: so bench and
 * pictures take their place in one step.
 *
 * @throws ExportError or StoreError with a sentence
 */
export async function fillFromArchive(
  from: OpenExport,
  id: string,
  path: string,
): Promise<Filled<BenchRecord>> {
  const { record, archives } = await checkExport(from);
  const value = { ...record, bench: { ...record.bench, id } };
  const folder = { files: nodeFileSystem, path, shown: `benches/${id}` };
  try {
    const standing = await fillBench(folder, value, archives(), { schema: recordSchema });
    await putPictures(from, within(folder, PICTURES));
    return { value, standing };
  } catch (error) {
    if (error instanceof ExportError || error instanceof StoreError) throw error;
    if (error instanceof Error && "code" in error) throw diskError(error, "write the bench anew");
    throw error;
  }
}
