import { capital } from "../capital.ts";
import { showUnits, showVolume } from "../units/show.ts";
import { showMark } from "./check-load.ts";
import type { LeftOut } from "./evening.ts";
import { callRoll, type Roll, showPush } from "./roll.ts";

/** Why a roll waits and what can be done about it, in one line. */
export function explainLeftOut(left: LeftOut, roll: Roll, called = callRoll(roll)): string {
  const named = capital(called);
  switch (left.kind) {
    case "marking-not-stated":
      return `${named}: what stands on it was not said. Say mark roll ${roll.number} C-41, E-6, ECN-2 or black and white.`;
    case "silver-in-colour":
      return `${named}: black and white, and no sheet here has its times. In colour baths bleach or blix takes its image away for ever.`;
    case "black-backed":
      return `${named}: black-backed movie film. Its backing spoils a shared developer and the film in it; it needs ECN-2 baths of its own.`;
    case "no-chemistry":
      return `${named}: no sheet here has times for ${showMark(left.process)}. Say learn a sheet.`;
    case "no-reel":
      return `${named}: no tank at hand has a reel for ${left.format}.`;
    case "too-little-solution":
      return `${named}: its reel needs ${showVolume(left.volume)}, the bottles hold ${showVolume(left.held)}.`;
    case "no-capacity":
      return `${named}: the bottles can take ${showUnits(left.left)} more.`;
    case "no-time":
      return `${named}: no time left for a load of ${left.minutes} min.`;
    case "mixed-push":
      return `${named}: ${left.push === 0 ? "not pushed" : showPush(left.push)}, so it needs a load of its own, and there is no time for it.`;
  }
}
