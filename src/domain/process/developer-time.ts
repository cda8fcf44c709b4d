import type { WorkBefore } from "../chemistry/reuse-time.ts";
import { computed, type Figure } from "../origin.ts";
import { ok, type Result } from "../result.ts";
import type { Stage } from "../session/run.ts";
import { type CorrectionError, correctedTime } from "../temperature/corrections.ts";
import type { FactorLimits } from "../temperature/limits.ts";
import { type Celsius, type Seconds, seconds } from "../units/quantity.ts";
import { showDuration } from "../units/show.ts";
import type { Bath, PushRule } from "./sheet.ts";

export type Correction = NonNullable<Stage["corrections"]>[number];

/** The time lies somewhere between, since the developer's coefficient is not known. */
export type Estimate = { readonly from: Seconds; readonly to: Seconds; readonly how: string };

export type DeveloperTime = {
  /** With an estimate: the time at the sheet's own temperature. */
  readonly time: Figure<Seconds>;
  /** The sheet's own time. */
  readonly base: Figure<Seconds>;
  /** What changed it, in order: re-use, push, temperature. */
  readonly corrections: readonly Correction[];
  /** The re-use table ends before the last film of this tank. */
  readonly beyondTable: boolean;
  readonly estimate?: Estimate | undefined;
};

/** A bath this near its aim is at it, °C: no thermometer tells more. */
const AT_AIM = 0.05;

/**
 * The time of a developer for this tank: the sheet's time, then what it has done before, then the
 * push, then the bath's temperature. In that order, since re-use and push rules speak of the
 * sheet's temperature, and temperature multiplies whatever the time is then.
 *
 * @param at  °C it will be used at; missing: at the sheet's. Without a law it makes no difference
 *   inside the sheet's tolerance, and beyond it an estimate
 * @param limits  how far all corrections together may go; missing: half to double
 * @returns nothing when the sheet has no time; an error where a rule does not reach that far, or
 *   all of them together go beyond the limits
 */
export function developerTime(
  bath: Pick<Bath, "time" | "reuse" | "temperature" | "tolerance" | "timeLaw">,
  before: WorkBefore | undefined,
  push: { readonly stops: number; readonly rule: PushRule } | undefined,
  at?: Celsius,
  limits?: FactorLimits,
): Result<DeveloperTime, CorrectionError> | undefined {
  const base = bath.time;
  if (base === undefined) return undefined;
  const { reuse, temperature: aim, tolerance, timeLaw: law } = bath;
  const tolerated = law === undefined ? Math.max(tolerance?.value ?? 0, AT_AIM) : AT_AIM;
  const off = at === undefined || aim === undefined ? 0 : Math.abs(at - aim.value);
  const corrected = correctedTime({
    time: base.value,
    origin: base.origin,
    aim: aim?.value,
    reuse: reuse === undefined || before === undefined ? undefined : { rule: reuse, before },
    push: push === undefined || push.stops === 0 ? undefined : push,
    temperature: at === undefined || off <= tolerated + 1e-9 ? undefined : { at, law },
    limits,
  });
  if (!corrected.ok) return corrected;
  const { steps, estimate, beyondReuse: beyondTable, from, to } = corrected.value;
  const corrections: Correction[] = [];
  let time = base.value;
  for (const { kind, from: after, how } of steps) {
    if (kind === "sheet" || (kind === "temperature" && estimate)) continue;
    const by = seconds(after - time);
    if (by !== 0 || kind === "push") corrections.push({ kind, by, how });
    time = after;
  }
  const changed = corrections.some(({ by }) => Math.abs(by) > 1e-9);
  const names = corrections.map(({ kind }) => kind).join(", then ");
  return ok({
    time: changed
      ? { value: time, origin: computed(`sheet time ${showDuration(base.value)}, then ${names}`) }
      : base,
    base,
    corrections,
    beyondTable,
    ...(estimate ? { estimate: { from, to, how: steps.at(-1)?.how ?? "" } } : {}),
  });
}

/** The middle of an estimate, taken because the user said so. */
export function takeMiddle(found: DeveloperTime): DeveloperTime {
  if (found.estimate === undefined) return found;
  const { from, to, how } = found.estimate;
  const value = seconds((from + to) / 2);
  const by = seconds(value - found.time.value);
  return {
    ...found,
    time: {
      value,
      origin: computed(`estimate: middle of ${showDuration(from)} to ${showDuration(to)}`),
    },
    corrections: [
      ...found.corrections,
      { kind: "temperature", by, how: `the middle, by your word; ${how}` },
    ],
  };
}
