import { phrases } from "./phrases.ts";

/** The slot `{verdict}`: did a test pass? Common usage, no source. */
export const readVerdict = phrases<boolean>([
  [true, "passed, pass, it passed, is good, was good, good, ok, yes, it did, went dark, all dark"],
  [true, "dark evenly, dark and clear, dark, clear, cleared, it cleared, clean, fine"],
  [false, "failed, fail, it failed, is bad, was bad, bad, no, it did not, did not, stayed light"],
  [false, "uneven, patchy, not dark, not clear, stayed cloudy, cloudy, did not clear, weak"],
]);
