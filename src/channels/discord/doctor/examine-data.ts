import { join } from "node:path";
import { openFileStore } from "../../../store/file-store.ts";
import { migrate } from "../../../store/migrations/migrate.ts";
import { StoreError } from "../../../store/store-error.ts";
import { type DirectoryRecord, type Place, recordSchema } from "../directory/record.ts";
import type { Finding } from "./finding.ts";

export type DataExamined = {
  readonly findings: readonly Finding[];
  /** The places of benches, where they could be read. */
  readonly places: readonly Place[];
};

const what = "data folder";

/** Whether benches can be kept where the settings say, and where in Discord they are. */
export async function examineData(data: string): Promise<DataExamined> {
  try {
    const directory = await openFileStore<DirectoryRecord>({
      directory: join(data, "discord"),
      schema: recordSchema,
      migrate: (record) => migrate(record, []),
    });
    try {
      const notices: string[] = [];
      const places: Place[] = [];
      for (const id of await directory.list()) {
        const { value, notices: told } = await directory.load(id);
        notices.push(...told);
        if (value?.kind === "place") places.push(value);
      }
      const open = places.filter(({ closed }) => closed === undefined).length;
      const says = `It can be written to; ${open} ${open === 1 ? "bench is" : "benches are"} open in Discord`;
      return {
        findings: [
          { kind: "good", what, says },
          ...notices.map((one) => ({ kind: "note" as const, what, says: one })),
        ],
        places,
      };
    } finally {
      await directory.close();
    }
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    const says =
      error.kind === "in-use"
        ? "A Wetside is running on this folder, so I left its benches alone. Stop it to have them looked at."
        : error.message;
    return {
      findings: [{ kind: error.kind === "in-use" ? "note" : "mend", what, says }],
      places: [],
    };
  }
}
