import type { BottleLook } from "../domain/chemistry/look.ts";
import { type Bath, isDeveloper, type Sheet } from "../domain/process/sheet.ts";

/** The sheet and bath a developer's figures are from. */
export type Figures = {
  readonly sheet: Sheet;
  readonly bath: Bath;
  /** They are of the sheet the bottle was mixed by, which is not the one in use. */
  readonly own: boolean;
};

/**
 * Whose figures hold for a developer that is poured from a bottle: those of the sheet it was mixed
 * by, where that has a time for the same bath of the same process. Time, re-use and push of one
 * sheet belong to its own mix; another sheet's would be a blend of two.
 */
export function figuresFor(sheet: Sheet, bath: Bath, look: BottleLook | undefined): Figures {
  const theirs = look?.bath;
  const own = look?.bottle.sheet === undefined ? undefined : look.sheet;
  const fits =
    own !== undefined &&
    theirs?.time !== undefined &&
    own.id !== sheet.id &&
    own.process === sheet.process &&
    isDeveloper(bath.kind) &&
    theirs.kind === bath.kind;
  return fits
    ? { sheet: own, bath: { ...theirs, name: bath.name }, own: true }
    : { sheet, bath, own: false };
}

/** Said with every time that is by a bottle's own sheet. */
export const ownLine = ({ sheet }: Figures, look: BottleLook): string =>
  `Time by the ${sheet.name} sheet, which ${look.bottle.name} was mixed by.`;
