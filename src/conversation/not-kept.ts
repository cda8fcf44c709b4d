import { StoreError, type StoreErrorKind } from "../store/store-error.ts";

const why: { readonly [kind in StoreErrorKind]?: string } = {
  "disk-full": "The disk is full",
  "disk-error": "The disk reports an error",
  "no-permission": "I may not write in the data folder",
};

/**
 * What is said under an answer that changes nothing, where it could not be kept; undefined where
 * what is in memory may not be what the bench is: then there is no answer.
 */
export function notKept(error: unknown): string | undefined {
  const reason = error instanceof StoreError ? why[error.kind] : undefined;
  return reason === undefined ? undefined : `${reason}: I answer, and keep nothing.`;
}
