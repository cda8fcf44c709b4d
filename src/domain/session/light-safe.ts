import { fixes } from "../faults/run-facts.ts";
import { wholeRun } from "../faults/whole-run.ts";
import { layOut } from "../timing/stage-clock.ts";
import { type Instant, type Seconds, seconds, secondsBetween } from "../units/quantity.ts";
import type { Run, Stage } from "./run.ts";

/** May film of a run see light, by what the log knows? */
export type LightSafety =
  /** It had a whole fixer or blix. */
  | { readonly kind: "fixed"; readonly bath: string; readonly had: Seconds; readonly time: Seconds }
  /** It had its minute in the reversal bath of the published reversal cycle. */
  | { readonly kind: "reversed"; readonly had: Seconds }
  /** It was in a fixer or blix for less than its time, or nobody said (`heard`) that it went in. */
  | { readonly kind: "unsure"; readonly bath: string; readonly heard: boolean }
  /** `after`: when its fixer or blix is over by the plan; missing where the plan knows none. */
  | {
      readonly kind: "unfixed";
      readonly bath?: string | undefined;
      readonly after?: Instant | undefined;
    };

/** Room light from here on, s in the reversal bath: SS0514, p. 4-3 (read). */
const REVERSED = 60;
/** Less than this is no shorter fix, s (own bound, no source). */
const SLACK = 2;

/**
 * Light is safe after a whole fixer or blix (common practice, no source), or after a minute in the
 * reversal bath of E-6 (SS0514, p. 4-3, read). Baths that were run one by one in the same tank
 * count as one run; a start that was only assumed proves nothing.
 */
export function lightSafety(run: Run, all: readonly Run[], now: Instant): LightSafety {
  const { stages } = wholeRun(run, all);
  const had = ({ inAt, outAt }: Stage): number =>
    inAt === undefined ? 0 : secondsBetween(inAt, outAt ?? now);
  const reversal = stages.find(
    ({ kind, plusMinus }) => kind === "reversal" && plusMinus === undefined,
  );
  if (run.process === "E-6" && reversal !== undefined && had(reversal) >= REVERSED) {
    return { kind: "reversed", had: seconds(had(reversal)) };
  }
  const fixing = stages.filter(({ kind, skipped }) => fixes(kind) && skipped !== true);
  const whole = fixing.find(
    (stage) =>
      stage.outAt !== undefined &&
      stage.plusMinus === undefined &&
      had(stage) >= stage.time - stage.drain - SLACK,
  );
  if (whole !== undefined) {
    return { kind: "fixed", bath: whole.bath, had: seconds(had(whole)), time: whole.time };
  }
  const short = fixing.find(({ outAt }) => outAt !== undefined);
  if (short !== undefined)
    return { kind: "unsure", bath: short.bath, heard: short.plusMinus === undefined };
  const clocks = layOut(run, now);
  const index = run.stages.findIndex(({ kind, skipped }) => fixes(kind) && skipped !== true);
  return { kind: "unfixed", bath: run.stages[index]?.bath, after: clocks[index]?.end };
}
