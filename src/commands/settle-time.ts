import { type DeveloperTime, type Estimate, takeMiddle } from "../domain/process/developer-time.ts";
import type { Sheet } from "../domain/process/sheet.ts";
import type { Result } from "../domain/result.ts";
import { type CorrectionError, explainCorrection } from "../domain/temperature/corrections.ts";
import { type Celsius, seconds } from "../domain/units/quantity.ts";
import { showDuration, showTemperature } from "../domain/units/show.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";
import type { Developing, Warmth } from "./developing.ts";

/** For the ear, where the sentence of the arithmetic is too long. */
const sayNo: Readonly<Record<string, string>> = {
  "not-in-table": "The push rule does not reach that far.",
  "no-time-left": "The push rule does not reach that far.",
  "outside-law": "That is outside your sheet's times. Bring the bath nearer.",
  "beyond-limits": "Together that is too far from the sheet. I refuse.",
};

/** A time as it stands, a refusal with its reason, or the question an estimate leads to. */
export function settleTime(
  command: string,
  wanted: Readonly<Record<string, unknown>>,
  sheet: Sheet,
  time: Result<DeveloperTime, CorrectionError> | undefined,
  warmth: Warmth | undefined,
): Developing | undefined {
  if (time === undefined) return undefined;
  if (!time.ok) {
    const { kind } = time.error;
    const say = sayNo[kind];
    return {
      reply: refuse(kind, explainCorrection(time.error), say === undefined ? {} : { say }),
    };
  }
  const found = time.value;
  if (found.estimate === undefined || warmth === undefined) return { found };
  if (warmth.estimate === "middle") return { found: takeMiddle(found) };
  if (warmth.estimate === "sheet") return { found, atAim: true };
  return { reply: whichTime(command, wanted, sheet, found, found.estimate, warmth.at) };
}

/** An estimate is never taken silently: the sheet's own time at its temperature, or the middle. */
function whichTime(
  command: string,
  wanted: Readonly<Record<string, unknown>>,
  sheet: Sheet,
  found: DeveloperTime,
  { from, to, how }: Estimate,
  at: Celsius,
): Reply {
  const middle = seconds((from + to) / 2);
  const range = `${showDuration(from)} to ${showDuration(to)}`;
  const origin = { kind: "computed", source: how } as const;
  return askFor(
    command,
    wanted,
    "estimate",
    `The ${sheet.name} sheet has no times for ${showTemperature(at)}. Estimate: ${range}. Keep the sheet's ${showDuration(found.time.value)} at its temperature, or use the middle, ${showDuration(middle)}?`,
    [
      { word: "keep", value: "sheet" },
      { word: "middle", value: "middle" },
    ],
    {
      say: `Estimate ${range}. Keep the sheet, or the middle?`,
      lines: [how, "Keep: bring the developer to the sheet's temperature first."],
      figures: {
        estimate_from_s: { value: from, origin },
        estimate_to_s: { value: to, origin },
        time_base_s: { value: found.base.value, origin: found.base.origin },
      },
    },
  );
}
