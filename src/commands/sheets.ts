import { defaultMixingSheet, defaultProcessSheet, shippedSheets } from "../data/sheets.ts";
import { type Bath, bathsCalled, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";

/** The bench's own sheets first: they outrank what ships with us. */
export const allSheets = (bench: Bench): readonly Sheet[] => [
  ...Object.values(bench.sheets),
  ...shippedSheets,
];

export function sheetById(bench: Bench, id: string): Sheet | undefined {
  for (const key in bench.sheets) {
    if (bench.sheets[key]?.id === id) return bench.sheets[key];
  }
  return shippedSheets.find((sheet) => sheet.id === id);
}

/** The sheet in use, or the shipped one that answers for it. `chosen` tells which. */
export function sheetFor(
  bench: Bench,
  purpose: "mixing" | "process",
  named?: string,
): { readonly sheet: Sheet; readonly chosen: boolean } | undefined {
  const id = named ?? bench.sheetInUse;
  if (id !== undefined) {
    const sheet = sheetById(bench, id);
    return sheet === undefined ? undefined : { sheet, chosen: true };
  }
  const fallback = purpose === "mixing" ? defaultMixingSheet : defaultProcessSheet;
  const sheet = shippedSheets.find((one) => one.id === fallback);
  return sheet === undefined ? undefined : { sheet, chosen: false };
}

/** The bath a word means on a sheet, with how many it could be. */
export function bathOn(
  sheet: Sheet,
  word: string,
): { readonly bath: Bath } | { readonly several: readonly Bath[] } | undefined {
  const found = bathsCalled(sheet, word);
  const only = found[0];
  if (only === undefined) return undefined;
  return found.length === 1 ? { bath: only } : { several: found };
}

/** What a plan or a mix must say about where its figures come from. */
export function aboutSheet(sheet: Sheet, chosen: boolean, whole = true): readonly string[] {
  const lines: string[] = [];
  if (sheet.invented) {
    lines.push(
      `${sheet.name.toUpperCase()}: INVENTED figures, for trying out only. Never for real film.`,
    );
  } else if (!chosen && whole && sheet.about !== undefined) lines.push(sheet.about);
  if (!chosen) lines.push("Your maker's sheet outranks this: say learn a sheet to teach me yours.");
  return lines;
}
