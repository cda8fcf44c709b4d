import type { Origin } from "../origin.ts";
import type { Celsius, Seconds } from "../units/quantity.ts";
import { plain, showCelsius, showDuration } from "../units/show.ts";

export type TimeRow = {
  readonly at: Celsius;
  readonly time: Seconds;
};

/**
 * How a developer's time follows its temperature: data of one developer, never of all. Published
 * rows give factors from 1.4 to 2.9 for 10 °C.
 */
export type TimeLaw =
  | {
      /** Rows in any order; between two of them the time's logarithm is straight. */
      readonly kind: "table";
      readonly rows: readonly TimeRow[];
      readonly origin: Origin;
    }
  | {
      /** The rate rises by this factor for 10 °C. */
      readonly kind: "q10";
      readonly q10: number;
      readonly origin: Origin;
    }
  | {
      /** The pre-metric coefficient: the factor on time for 7 °C (Ives, Airplane Photography, 1920, read). */
      readonly kind: "k7";
      readonly k7: number;
      readonly origin: Origin;
    };

export type LawError =
  | { readonly kind: "too-few-rows"; readonly rows: number }
  | { readonly kind: "bad-row"; readonly row: TimeRow }
  | { readonly kind: "doubled-row"; readonly at: Celsius }
  | { readonly kind: "slower-when-warmer"; readonly cooler: TimeRow; readonly warmer: TimeRow }
  | {
      readonly kind: "coefficient-out-of-range";
      readonly q10: number;
      readonly least: number;
      readonly most: number;
    };

/** Factors taken for meant, for 10 °C: real processes have 1.5 to 4 (see rate.ts); our own bounds around that. */
const LEAST_Q10 = 1;
const MOST_Q10 = 6;

export const q10FromK7 = (k7: number): number => k7 ** (10 / 7);

/** From a tenth of a second to eleven days: what a bath may last; our own bounds. */
export const isTime = (time: number): boolean => time >= 0.1 && time <= 1_000_000;

/** What is wrong with a law as data, or undefined when it can be used. */
export function checkLaw(law: TimeLaw): LawError | undefined {
  if (law.kind !== "table") {
    const q10 = law.kind === "q10" ? law.q10 : q10FromK7(law.k7);
    return q10 >= LEAST_Q10 && q10 <= MOST_Q10
      ? undefined
      : { kind: "coefficient-out-of-range", q10, least: LEAST_Q10, most: MOST_Q10 };
  }
  if (law.rows.length < 2) return { kind: "too-few-rows", rows: law.rows.length };
  const bad = law.rows.find(({ at, time }) => !(at >= 0 && at <= 100 && isTime(time)));
  if (bad !== undefined) return { kind: "bad-row", row: bad };
  const rows = byTemperature(law.rows);
  for (const [index, warmer] of rows.entries()) {
    const cooler = rows[index - 1];
    if (cooler === undefined) continue;
    if (cooler.at === warmer.at) return { kind: "doubled-row", at: warmer.at };
    if (cooler.time < warmer.time) return { kind: "slower-when-warmer", cooler, warmer };
  }
  return undefined;
}

export const byTemperature = (rows: readonly TimeRow[]): readonly TimeRow[] =>
  rows.toSorted((a, b) => a.at - b.at);

const showRow = ({ at, time }: TimeRow): string => `${showDuration(time)} at ${showCelsius(at)}`;

export function explainLaw(error: LawError): string {
  switch (error.kind) {
    case "too-few-rows":
      return `A time-temperature table needs two rows at least, and this has ${error.rows}.`;
    case "bad-row":
      return "A row of the table needs a temperature from 0 to 100 °C and a time above zero.";
    case "doubled-row":
      return `The table has two rows for ${showCelsius(error.at)}: keep one of them.`;
    case "slower-when-warmer":
      return `The table has ${showRow(error.cooler)} and a longer ${showRow(error.warmer)}: a warmer bath works faster, so read these two rows again.`;
    case "coefficient-out-of-range":
      return Number.isFinite(error.q10)
        ? `A factor of ${plain(error.q10, 2)} for 10 °C is outside ${error.least} to ${error.most}: read it again.`
        : `I need a factor from ${error.least} to ${error.most} for 10 °C.`;
  }
}
