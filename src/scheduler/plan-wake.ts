import type { Instant } from "../domain/units/quantity.ts";

/** No wait is longer than this, in ms: a suspend is then noticed within it after waking. */
const LONGEST_WAIT = 500;

export type Wake =
  | { readonly kind: "idle" }
  | { readonly kind: "wait"; readonly ms: number }
  | { readonly kind: "fire"; readonly lateMs: number };

/**
 * What a woken scheduler should do about the earliest due instant. A timer may go off up to 2 ms
 * early, so a wait may have to be followed by another: nothing is ever fired before its instant.
 */
export function planWake(due: Instant | undefined, now: Instant): Wake {
  if (due === undefined) return { kind: "idle" };
  if (due <= now) return { kind: "fire", lateMs: now - due };
  return { kind: "wait", ms: Math.min(LONGEST_WAIT, Math.max(1, Math.ceil(due - now))) };
}
