import { StoreError } from "./store-error.ts";

/** Two parts of the program changed a bench from the same start: a bug, caught before it costs. */
export const conflict = (): StoreError =>
  new StoreError(
    "conflict",
    "This bench was changed meanwhile, so I did not keep that. Say it again.",
  );
