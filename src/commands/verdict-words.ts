import type { BottleLook } from "../domain/chemistry/look.ts";
import { type Verdict, verdictOf } from "../domain/chemistry/verdict.ts";
import { showDate } from "../domain/timing/clock-text.ts";
import { plain } from "../domain/units/show.ts";
import { governsWords } from "./bottle-lines.ts";

/** "Acorn (developer): RETIRE, its film is done, 9 of 9 units. Say retire Acorn." */
export function verdictLine(look: BottleLook): string {
  const { bottle } = look;
  const verdict = verdictOf(look);
  return `${bottle.name} (${bottle.bath}): ${heads[verdict.verdict]}, ${reason(look, verdict)}`;
}

export const heads: Readonly<Record<Verdict["verdict"], string>> = {
  return: "return",
  retire: "RETIRE",
  test: "TEST FIRST",
  ask: "your call",
};

function reason(look: BottleLook, { why }: Verdict): string {
  const { bottle, capacity, due } = look;
  const retire = `Say retire ${bottle.name}.`;
  switch (why) {
    case "retired":
      return "it is retired already.";
    case "one-way":
      return `what has left a ${bottle.role} goes back into none. Pour it away by its route.`;
    case "contaminated":
      return `something foreign got in: ${bottle.suspect?.why ?? "unknown"}. No test settles that. ${retire}`;
    case "failed-test":
      return `its last clip test failed. ${retire}`;
    case "film-done":
      return capacity === undefined
        ? `its film is done. ${retire}`
        : `its film is done, ${plain(bottle.used, 2)} of ${plain(capacity.value, 2)} units. ${retire}`;
    case "too-old":
      return due === undefined
        ? `past its keeping time. ${retire}`
        : `past its keeping time since ${showDate(due)}. ${retire} Or clip test ${bottle.name}.`;
    case "suspect":
      return `${bottle.suspect?.why ?? "it is suspect"}. Keep it apart; say clip test ${bottle.name}.`;
    case "unproven":
      return `${look.doubts.join("; ")}. Say clip test ${bottle.name}.`;
    case "near-limit":
      return `near its limit: ${governsWords(look)}.`;
    case "good":
      return `${governsWords(look)}.`;
    case "no-limit-known":
      return "no limit is known for it; its sheet should say.";
  }
}
