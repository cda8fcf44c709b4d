import { loadCommands } from "./commands/registry.ts";
import { BenchKeeper, type Place } from "./conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "./conversation/record.ts";
import { filesIn } from "./export/files.ts";
import { openFileStore } from "./store/file-store.ts";

/** The terminal's bench; other channels name their own. */
const HOME = "home";

export type OpenBench = {
  readonly keeper: BenchKeeper;
  readonly notices: readonly string[];
  close(): Promise<void>;
};

/** Opens the data folder and the bench in it. */
export async function openBench(place: Place & { readonly data: string }): Promise<OpenBench> {
  const commands = await loadCommands();
  const store = await openFileStore<BenchRecord>({
    directory: place.data,
    schema: recordSchema,
  });
  const { keeper, notices } = await BenchKeeper.open(
    HOME,
    place,
    store,
    commands,
    filesIn(place.data),
  );
  const close = async (): Promise<void> => {
    await keeper.idle();
    await store.close();
  };
  return { keeper, notices, close };
}
