import type { Store } from "../../src/store/store.ts";
import { storeInPassing } from "./store-in-passing.ts";

/** The same store, which writes no bench anew itself: only folders that others have filled. */
export const storeApart = <T>(store: Store<T>): Store<T> => ({
  ...storeInPassing(store),
  rewrite: () => Promise.reject(new Error("it was written in passing")),
  ...(store.rewriteBy === undefined ? {} : { rewriteBy: store.rewriteBy.bind(store) }),
  ...(store.besidePath === undefined ? {} : { besidePath: store.besidePath.bind(store) }),
});
