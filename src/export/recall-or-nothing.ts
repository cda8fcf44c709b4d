import { StoreError } from "../store/store-error.ts";

/** An archived record; one that is damaged is stepped over as one that is not there. */
export async function recallOrNothing(recall: () => Promise<unknown>): Promise<unknown> {
  try {
    return await recall();
  } catch (error) {
    if (error instanceof StoreError && error.kind === "unreadable") return undefined;
    throw error;
  }
}
