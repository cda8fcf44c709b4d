import type { BottleLook } from "../chemistry/look.ts";
import type { Roll } from "../film/roll.ts";
import type { Bench } from "../session/bench.ts";
import type { Run, Stage } from "../session/run.ts";
import type { Millilitres } from "../units/quantity.ts";
import type { NoteRule, TroubleRule } from "./evidence-notes.ts";

/** Something the bench's own log says about a run. Which causes it speaks for stands in the tables. */
export type Evidence = {
  readonly kind: string;
  /** In words, with its figures. */
  readonly text: string;
  /** Instead of the table's causes, where the evidence itself names them. */
  readonly causes?: Readonly<Record<string, number>> | undefined;
};

/** What a run is judged by. */
export type RunFacts = {
  readonly run: Run;
  /** Every bottle of the run by id, looked at on the day of the run. */
  readonly looks: ReadonlyMap<string, BottleLook>;
  readonly rolls: readonly Roll[];
  readonly thermometers: Bench["thermometers"];
  readonly suspects: NonNullable<Bench["suspects"]>;
  /** Solution that covers the reels of this load, mL; undefined where its reels were never told. */
  readonly needs: Millilitres | undefined;
  /** ISO date of an instant in the bench's zone. */
  readonly zone: string;
  /** °C from bath to bath that are still no jump. */
  readonly jump: number;
  readonly notes: readonly NoteRule[];
  readonly troubles: readonly TroubleRule[];
};

/** A stage of the run with its place in it. */
export type PlacedStage = { readonly stage: Stage; readonly index: number };

export const stagesWith = (run: Run, is: (kind: string) => boolean): readonly PlacedStage[] =>
  run.stages.flatMap((stage, index) => (is(stage.kind) ? [{ stage, index }] : []));

export const fixes = (kind: string): boolean => kind === "fixer" || kind === "blix";
export const bleaches = (kind: string): boolean => kind === "bleach" || kind === "blix";
export const stabilizes = (kind: string): boolean =>
  kind === "stabilizer" || kind === "final rinse";
