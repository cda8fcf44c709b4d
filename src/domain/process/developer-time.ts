import type { WorkBefore } from "../chemistry/reuse-time.ts";
import { reuseTime } from "../chemistry/reuse-time.ts";
import { computed, type Figure } from "../origin.ts";
import { ok, type Result } from "../result.ts";
import type { Stage } from "../session/run.ts";
import type { Seconds } from "../units/quantity.ts";
import { showDuration } from "../units/show.ts";
import { type PushTrouble, pushTime } from "./push-time.ts";
import type { Bath, PushRule } from "./sheet.ts";

export type Correction = NonNullable<Stage["corrections"]>[number];

export type DeveloperTime = {
  readonly time: Figure<Seconds>;
  /** The sheet's own time. */
  readonly base: Figure<Seconds>;
  /** What changed it, in order: re-use, then push. */
  readonly corrections: readonly Correction[];
  /** The re-use table ends before the last film of this tank. */
  readonly beyondTable: boolean;
};

/**
 * The time of a developer for this tank: the sheet's time, then what it has done before, then the
 * push. In that order, since a push rule speaks of a time that is right for the bath as it is.
 * (A correction for temperature would come last.)
 *
 * @returns nothing when the sheet has no time
 */
export function developerTime(
  bath: Pick<Bath, "time" | "reuse">,
  before: WorkBefore | undefined,
  push: { readonly stops: number; readonly rule: PushRule } | undefined,
): Result<DeveloperTime, PushTrouble> | undefined {
  const base = bath.time;
  if (base === undefined) return undefined;
  const corrections: Correction[] = [];
  let time = base.value;
  let beyondTable = false;
  if (bath.reuse !== undefined && before !== undefined) {
    const used = reuseTime(time, bath.reuse, before);
    beyondTable = used.beyond;
    time = used.time;
    if (used.added !== 0) corrections.push({ kind: "re-use", by: used.added, how: used.how });
  }
  if (push !== undefined && push.stops !== 0) {
    const pushed = pushTime(time, base.value, push.rule, push.stops);
    if (!pushed.ok) return pushed;
    time = pushed.value.time;
    corrections.push({ kind: "push", by: pushed.value.added, how: pushed.value.how });
  }
  const changed = corrections.some(({ by }) => Math.abs(by) > 1e-9);
  const steps = corrections.map(({ kind }) => kind).join(", then ");
  return ok({
    time: changed
      ? { value: time, origin: computed(`sheet time ${showDuration(base.value)}, then ${steps}`) }
      : base,
    base,
    corrections,
    beyondTable,
  });
}
