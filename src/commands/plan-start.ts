import { filmUnits } from "../domain/film/load.ts";
import type { Sheet } from "../domain/process/sheet.ts";
import { type Bench, takeId } from "../domain/session/bench.ts";
import { type Run, withStage } from "../domain/session/run.ts";
import { type Instant, later, seconds } from "../domain/units/quantity.ts";
import type { Reply } from "../reply/reply.ts";
import { type PlacedRun, placeRun, poursFrom } from "./place-run.ts";
import { askRecalled } from "./recalled-figures.ts";
import type { BathsMeant } from "./start-baths.ts";
import { guardBottles, type Insisted } from "./start-guards.ts";
import { type Staged, stagesFor } from "./start-stages.ts";

type Wanted = Parameters<typeof stagesFor>[5] &
  Parameters<typeof placeRun>[3] &
  Insisted & {
    readonly push?: number | undefined;
    /** Said yes to figures that are from memory. */
    readonly recalled?: boolean | undefined;
  };

type Placed = Exclude<PlacedRun, { readonly reply: Reply }>;

export type PlannedStart = {
  /** With the run's id taken, without the run. */
  readonly bench: Bench;
  readonly run: Run;
  readonly firstPour: Instant;
  readonly placed: Placed;
  readonly staged: Staged;
  /** The sheet the run goes by: its bottle's own, where it is one bath alone. */
  readonly followed: Sheet;
  readonly alone: boolean;
  /** Whose figures were taken and what was insisted on: said, and kept in the run's record. */
  readonly notes: readonly string[];
};

/**
 * The run a start makes, or the question or refusal that stands in its way. Where hands are not
 * free it is put off, other film may then pour first, and its times are worked out once more.
 */
export function planStart(
  at: { readonly bench: Bench; readonly now: Instant },
  sheet: Sheet,
  baths: BathsMeant,
  film: Run["film"],
  formatAssumed: boolean,
  tank: string,
  wanted: Wanted,
): PlannedStart | { readonly reply: Reply } {
  const planned = (pour: Instant): PlannedStart | { readonly reply: Reply } => {
    const load = filmUnits(film);
    const staged = stagesFor(poursFrom(at.bench, wanted), at.now, pour, sheet, baths, wanted, load);
    if ("reply" in staged) return staged;
    const { stages, looks, developed, owners } = staged;
    const [owner] = owners;
    const alone = owner !== undefined && stages.length === 1;
    const followed = alone ? owner : sheet;
    // A rehearsal counts nothing and meets no film.
    const recalled =
      wanted.rehearsal === undefined
        ? askRecalled(staged.timed, stages, wanted)
        : { notes: [] as readonly string[] };
    if ("reply" in recalled) return recalled;
    const guarded = guardBottles(looks, load, developed?.beyondTable === true, wanted, wanted);
    if ("reply" in guarded) return guarded;
    const notes = [...recalled.notes, ...guarded.notes, ...staged.notes];
    const { id, bench } = takeId(at.bench, "run-");
    const plan: Run = withStage(
      {
        id,
        tank,
        title: baths.baths.length === 1 ? (stages[0]?.bath ?? sheet.name) : sheet.name,
        sheet: followed.id,
        process: followed.process,
        film: [...film],
        formatAssumed,
        plannedAt: at.now,
        current: 0,
        stages: [...stages],
        cuedUntil: at.now,
        window: seconds(bench.window),
        quiet: false,
        readings: [],
        notes: notes.map((text) => ({ at: at.now, text })),
        counted: [],
        ...(wanted.push === undefined || wanted.push === 0 ? {} : { push: wanted.push }),
      },
      0,
      { pourAt: later(at.now, bench.lead) },
    );
    const placed = placeRun(bench, plan, at.now, wanted);
    if ("reply" in placed) return placed;
    const { run, firstPour } = placed;
    return { bench, run, firstPour, placed, staged, followed, alone, notes };
  };
  const soonest = later(at.now, at.bench.lead);
  const first = planned(soonest);
  return "reply" in first || first.firstPour === soonest ? first : planned(first.firstPour);
}
