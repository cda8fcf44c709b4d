import type { Season, SeasonBottle, SeasonMonth } from "../domain/record/season.ts";
import { monthName } from "../domain/reminders/calendar.ts";
import { showDate } from "../domain/timing/clock-text.ts";
import { units } from "../domain/units/quantity.ts";
import { plain, showMoney, showUnits } from "../domain/units/show.ts";

export const seasonTitle = ({ from, to }: Season): string =>
  `The season, ${showDate(from)} to ${showDate(to)}`;

const count = (many: number, noun: string): string => `${many} ${noun}${many === 1 ? "" : "s"}`;

/** A season in words, line by line: what its picture shows. */
export function seasonLines(season: Season): readonly string[] {
  const { runs, rolls, units: load, processes, bottles, months } = season;
  if (runs === 0) return ["No run in this time."];
  const worked = months.filter((month) => month.runs > 0);
  return [
    `${count(runs, "run")}, ${count(rolls, "roll")} or sheets, ${showUnits(units(load))}`,
    ...processes.map(
      (one) =>
        `${one.process}: ${plain(one.rolls, 0)} in ${count(one.runs, "run")}, ${showUnits(units(one.units))}`,
    ),
    ...bottles.map((one) => `Bottle ${seasonBottle(one)}`),
    ...costLines(bottles),
    ...worked.map((one) => `${monthText(one.month)}: ${monthWords(one)}`),
    ...(months.some(({ known, runs: all }) => known < all)
      ? ["Of runs put away before deviations were kept, none is counted."]
      : []),
  ];
}

export const seasonBottle = ({
  bottle,
  bath,
  units: load,
  perRoll,
  retired,
}: SeasonBottle): string =>
  `${bottle} (${bath}): ${showUnits(units(load))}${
    perRoll === undefined ? "" : `, ${showMoney(perRoll.amount, perRoll.currency)} a roll`
  }${retired ? ", retired" : ""}`;

/** What a roll cost through all baths with a price, where they are in one currency. */
function costLines(bottles: readonly SeasonBottle[]): readonly string[] {
  const priced = bottles.flatMap(({ perRoll }) => perRoll ?? []);
  return bottles.length > 0 && priced.length === 0
    ? ["No bottle has a price: say Acorn cost 14 euros."]
    : [];
}

/** "November 2026". */
const monthText = (month: string): string => {
  const { year, month: number } = Temporal.PlainYearMonth.from(month);
  return `${monthName(number)} ${year}`;
};

/** "Nov 26". */
export const monthShort = (month: string): string => {
  const { year, month: number } = Temporal.PlainYearMonth.from(month);
  return `${monthName(number).slice(0, 3)} ${String(year).slice(-2)}`;
};

const monthWords = ({ runs, known, deviations }: SeasonMonth): string =>
  known === 0
    ? count(runs, "run")
    : `${count(runs, "run")}, ${count(deviations, "deviation")}${known < runs ? ` in ${known} of them` : ""}`;
