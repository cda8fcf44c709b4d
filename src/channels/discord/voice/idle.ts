/** When something last happened in a call, ms of one clock. */
export type Idling = {
  /** Somebody of the bench was there. */
  readonly company: number;
  /** A word was said at the bench, or a run was open. */
  readonly word: number;
};

/** A bench's people may all be gone for so long, ms: programs fall over and come back. */
const ALONE = 60_000;
/** Without a run and without a word for so long, ms, a call is over. */
export const QUIET = 10 * 60_000;

/** Why a call may end by itself; undefined while it is of use. */
export function whyIdle({ company, word }: Idling, now: number): "nobody" | "quiet" | undefined {
  if (now - company >= ALONE) return "nobody";
  return now - word >= QUIET ? "quiet" : undefined;
}
