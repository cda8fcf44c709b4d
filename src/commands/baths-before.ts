import { isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import type { Stage } from "../domain/session/run.ts";

/** A developer started by itself: what its sheet puts before it is not forgotten in silence. */
export function bathsBefore(sheet: Sheet, stage: Stage | undefined): readonly string[] {
  if (stage === undefined || !isDeveloper(stage.kind)) return [];
  const index = sheet.baths.findIndex(({ name }) => name === stage.bath);
  const before = sheet.baths.slice(0, Math.max(0, index));
  if (before.some(({ kind }) => isDeveloper(kind)) || before.length === 0) return [];
  const names = before.map(({ name }) => name).join(", then ");
  const why = sheet.shared === undefined ? "" : `: ${sheet.shared.why}`;
  return [`Before the ${stage.bath} this sheet has ${names}${why}. Do those first.`];
}
