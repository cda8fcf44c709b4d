import { capital } from "../domain/capital.ts";
import type { Bottle } from "../domain/chemistry/bottle.ts";
import { isDeveloper, spoilsDeveloper } from "../domain/process/sheet.ts";
import { type Reply, refuse } from "../reply/reply.ts";

/**
 * The one-way rule: nothing flows from the stop, bleach, fixer or blix side back to the developer
 * side, and no bath into a bottle of another. Undefined when the way is free.
 */
export function blockedWay(bottle: Bottle, bath: string, kind: string): Reply | undefined {
  if (kind === bottle.bath || bath === bottle.bath) return undefined;
  if (isDeveloper(kind) && isDeveloper(bottle.bath)) {
    return kind.replace("colour ", "") === bottle.bath.replace("colour ", "")
      ? undefined
      : wrongBath(bottle, bath);
  }
  if (isDeveloper(bottle.bath) && spoilsDeveloper(kind)) {
    return refuse(
      "one-way",
      `STOP. ${bottle.name} holds ${bottle.bath}. ${capital(bath)} never goes there: a trace ruins it all.`,
      {
        say: `STOP. ${bottle.name} holds ${bottle.bath}. Not ${bath}.`,
        lines: [
          "Put the bottle down, cap on. Nothing flows back from that side: no jug, funnel or lid either.",
          `Some is in already? Say ${bath} went into ${bottle.name}.`,
        ],
        facts: { bottle: bottle.name, bath, holds: bottle.bath },
      },
    );
  }
  return wrongBath(bottle, bath);
}

const wrongBath = (bottle: Bottle, bath: string): Reply =>
  refuse("wrong-bath", `STOP. ${bottle.name} holds ${bottle.bath}, not ${bath}. Nothing goes in.`, {
    say: `STOP. ${bottle.name} holds ${bottle.bath}, not ${bath}.`,
    lines: [`Some is in already? Say ${bath} went into ${bottle.name}.`],
    facts: { bottle: bottle.name, bath, holds: bottle.bath },
  });
