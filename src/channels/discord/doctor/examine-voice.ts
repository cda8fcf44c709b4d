import { missingPackages } from "../voice/packages.ts";
import type { Finding } from "./finding.ts";

/** Whether calls can be had on this machine. Without them everything else works, so it is a note. */
export function examineVoice(missing: readonly string[] = missingPackages()): Finding {
  const what = "calls";
  return missing.length === 0
    ? { kind: "good", what, says: "the packages for voice channels are there" }
    : {
        kind: "note",
        what,
        says: `for voice channels ${missing.join(", ")} ${missing.length === 1 ? "is" : "are"} missing; everything else works. This adds what is missing: npm run add-voice`,
      };
}
