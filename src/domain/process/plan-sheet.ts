import type { Stage } from "../session/run.ts";
import type { Celsius, Seconds } from "../units/quantity.ts";
import { type PlanTrouble, planStage } from "./plan-stages.ts";
import type { Bath, Sheet } from "./sheet.ts";

/** What the user said of a whole process: times by a bath's name, the first developer's temperature. */
export type SaidOfSheet = {
  readonly times?: { readonly [bath: string]: Seconds } | undefined;
  readonly temperature?: Celsius | undefined;
};

export type PlannedSheet =
  | { readonly kind: "stages"; readonly stages: readonly Stage[] }
  /** The sheet leaves these times to the user, in order: one question each. */
  | { readonly kind: "ask-times"; readonly baths: readonly Bath[] }
  /** The sheet is for mixing alone. */
  | { readonly kind: "no-times" }
  | { readonly kind: "trouble"; readonly trouble: PlanTrouble };

/** A sheet of recipes without any time is for mixing; one of baths without times asks for them. */
const isForMixing = (sheet: Sheet): boolean =>
  sheet.baths.every(({ time }) => time === undefined) &&
  sheet.baths.some(({ mix }) => mix !== undefined);

/**
 * Every bath of a sheet as a stage, or the baths whose time has to be asked first: a bath is never
 * left out of a process because its time is not known. No stage has an instant yet.
 */
export function planSheet(sheet: Sheet, said: SaidOfSheet = {}): PlannedSheet {
  const times = said.times ?? {};
  if (isForMixing(sheet) && Object.keys(times).length === 0) return { kind: "no-times" };
  const missing = sheet.baths.filter(
    ({ name, time }) => time === undefined && times[name] === undefined,
  );
  if (missing.length > 0) return { kind: "ask-times", baths: missing };
  const stages: Stage[] = [];
  for (const bath of sheet.baths) {
    const temperature = bath === sheet.baths.find(isFirst) ? said.temperature : undefined;
    const planned = planStage(bath, { time: times[bath.name], temperature });
    if (!planned.ok) return { kind: "trouble", trouble: planned.trouble };
    stages.push(planned.stage);
  }
  return { kind: "stages", stages };
}

const isFirst = ({ kind }: Bath): boolean => kind.endsWith("developer");
