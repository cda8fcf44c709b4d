import type { Command } from "./commands/define-command.ts";
import { loadCommands } from "./commands/registry.ts";
import { BenchKeeper, type Place } from "./conversation/bench-keeper.ts";
import { createLookBack, type LookBack } from "./conversation/look-back/look-back.ts";
import { type BenchRecord, recordSchema } from "./conversation/record.ts";
import { filesIn } from "./export/files.ts";
import type { FileSystem } from "./platform/file-system.ts";
import { closeToOthers } from "./store/close-to-others.ts";
import { openFileStore } from "./store/file-store.ts";
import type { Store } from "./store/store.ts";

/** The terminal's bench; other channels name their own. */
export const HOME = "home";

export type OpenBench = {
  readonly keeper: BenchKeeper;
  readonly notices: readonly string[];
  /** For channels that open benches of their own in the same folder. */
  readonly commands: readonly Command[];
  readonly store: Store<BenchRecord>;
  readonly lookBack: LookBack;
  close(): Promise<void>;
};

/** Opens the data folder and the terminal's bench in it; `disk` is the machine's own, if left out. */
export async function openBench(
  place: Place & { readonly data: string; readonly disk?: FileSystem },
): Promise<OpenBench> {
  const commands = await loadCommands();
  const store = await openFileStore<BenchRecord>({
    directory: place.data,
    schema: recordSchema,
    ...(place.disk === undefined ? {} : { files: place.disk }),
  });
  const lookBack = createLookBack();
  const { keeper, notices } = await openHome(place, store, commands, lookBack).catch(
    async (error: unknown) => {
      // The folder is let go of: whoever mends it finds it as it was.
      await store.close();
      throw error;
    },
  );
  const close = async (): Promise<void> => {
    await keeper.idle();
    await lookBack.close();
    await store.close();
  };
  return { keeper, notices, commands, store, lookBack, close };
}

async function openHome(
  place: Place & { readonly data: string },
  store: Store<BenchRecord>,
  commands: readonly Command[],
  lookBack: LookBack,
) {
  const closed = await closeToOthers(place.data);
  const { keeper, notices } = await BenchKeeper.open(
    HOME,
    place,
    store,
    commands,
    filesIn(place.data),
    lookBack,
  );
  return { keeper, notices: [...closed, ...notices] };
}
