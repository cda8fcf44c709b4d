import { showOrigin } from "../origin.ts";
import type { Sheet } from "./sheet.ts";

/** A bottle a run would be poured from, as far as sharing goes. */
export type SharedBottle = {
  readonly name: string;
  /** The process of the sheet it was mixed by; missing: not known. */
  readonly process: string | undefined;
};

export type SharingTrouble = {
  readonly kind: "shared-bath";
  readonly sheet: string;
  readonly bottles: readonly string[];
  readonly why: string;
  readonly how: string;
};

/**
 * A process that spoils what others share may be poured only from bottles mixed for it. A bottle
 * of unknown process counts as shared: it is refused by default.
 */
export function sharingTrouble(
  sheet: Sheet,
  bottles: readonly SharedBottle[],
): SharingTrouble | undefined {
  const { shared } = sheet;
  if (shared === undefined) return undefined;
  const others = bottles.filter(({ process }) => process !== sheet.process);
  if (others.length === 0) return undefined;
  return {
    kind: "shared-bath",
    sheet: sheet.name,
    bottles: others.map(({ name }) => name),
    why: shared.why,
    how: showOrigin(shared.origin),
  };
}

export function explainSharing({ sheet, bottles, why }: SharingTrouble): string {
  const names = bottles.length < 3 ? bottles.join(" and ") : `${bottles.length} bottles`;
  return `Stop. Film of the ${sheet} sheet does not go into ${names}: ${why}. Mix baths of its own by that sheet, or take other film.`;
}
