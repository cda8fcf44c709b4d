import type { Bench } from "../domain/session/bench.ts";
import { dateOf, showDate } from "../domain/timing/clock-text.ts";
import { sheetFor } from "./sheets.ts";

/** A day a bottle of unknown age cannot well be older than, and what tells so. */
export type EarliestDay = { readonly on: string; readonly why: string };

/**
 * The earliest plausible mixing day of a solution, from what the bench has written down: when its
 * sheet was taught, when it was mixed here, or when a note first named it. The earliest of these
 * is taken, since an age too great does no harm. Nothing when nothing mentions it.
 */
export function earliestDay(bench: Bench, solution: string): EarliestDay | undefined {
  const found: EarliestDay[] = [];
  const sheet = sheetFor(bench, "process")?.sheet;
  const taught = sheet === undefined ? undefined : bench.taughtOn?.[sheet.id];
  if (sheet !== undefined && taught !== undefined && sheet.baths.some(named(solution))) {
    found.push({ on: taught, why: `${showDate(taught)}, when ${sheet.name} was taught, is taken` });
  }
  for (const { bath, kind, at } of Object.values(bench.vessels)) {
    if (bath !== solution && kind !== solution) continue;
    const on = dateOf(at, bench.zone);
    found.push({ on, why: `${showDate(on)}, when ${solution} was mixed here, is taken` });
  }
  const noted = bench.notes.find(({ text }) => text.toLowerCase().includes(solution));
  if (noted !== undefined) {
    const on = dateOf(noted.at, bench.zone);
    found.push({ on, why: `${showDate(on)}, when a note first named ${solution}, is taken` });
  }
  return found.reduce<EarliestDay | undefined>(
    (least, one) => (least === undefined || one.on < least.on ? one : least),
    undefined,
  );
}

const named =
  (solution: string) =>
  (bath: { readonly name: string; readonly kind: string }): boolean =>
    bath.name === solution || bath.kind === solution;
