import { type TimeTable, timeTables } from "../data/time-temperature.ts";
import { isColour, isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import { tableTime } from "../domain/temperature/time-from-temperature.ts";

export const chosenTable = (bench: Bench): TimeTable | undefined =>
  timeTables.find(({ id }) => id === bench.timeTable);

/**
 * A black-and-white sheet whose developer has no time of its own, with the times of the table that
 * was chosen. A figure of the sheet itself is never replaced.
 */
export function withChosenTimes(
  bench: Bench,
  sheet: Sheet,
): { readonly sheet: Sheet; readonly table: TimeTable | undefined } {
  const table = isColour(sheet.process) ? undefined : chosenTable(bench);
  if (table === undefined) return { sheet, table: undefined };
  let used = false;
  const baths = sheet.baths.map((bath) => {
    if (!isDeveloper(bath.kind) || bath.time !== undefined || bath.timeLaw !== undefined) {
      return bath;
    }
    const aim = bath.temperature?.value ?? table.law.rows[0]?.at;
    const time = aim === undefined ? undefined : tableTime(table.law, aim);
    if (aim === undefined || time?.ok !== true) return bath;
    used = true;
    const { origin } = table.law;
    return {
      ...bath,
      time: { value: time.value, origin },
      temperature: bath.temperature ?? { value: aim, origin },
      timeLaw: { ...table.law, rows: [...table.law.rows] },
    };
  });
  return used ? { sheet: { ...sheet, baths }, table } : { sheet, table: undefined };
}

/** What must be said with times that were measured in another way of agitating. */
export const agitationCaution = ({ name, agitation }: TimeTable): readonly string[] =>
  agitation === "any"
    ? []
    : [`Times of ${name}: for ${agitation} agitation. With another they do not hold.`];
