import type { Files } from "../../export/files.ts";
import type { Reply } from "../../reply/reply.ts";
import type { Store } from "../../store/store.ts";
import type { BenchRecord } from "../record.ts";

/** The bench something is done to, and what it is done with. */
export type Bench = {
  readonly id: string;
  readonly record: BenchRecord;
  readonly store: Store<BenchRecord>;
  readonly files: Files;
};

/** What came of it; `record` where the bench is another after it. */
export type Done = { readonly reply: Reply; readonly record?: BenchRecord };
