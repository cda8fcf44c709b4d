import type { Store } from "../../src/store/store.ts";

/** The same store without what lets threads of their own read and write its folders. */
export const storeInPassing = <T>(store: Store<T>): Store<T> => ({
  load: store.load.bind(store),
  commit: store.commit.bind(store),
  archive: store.archive.bind(store),
  recall: store.recall.bind(store),
  rewrite: store.rewrite.bind(store),
  list: store.list.bind(store),
  close: store.close.bind(store),
});
