import { type Degrees, differenceFromFahrenheit } from "../../domain/units/conversions.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { readScaleBehind } from "./degrees.ts";
import { isArticle, readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";

/** A difference of temperature in Celsius degrees. */
export type DifferenceValue = number | Unsettled<number> | Unreadable;

const readTolerance = phrases<true>([[true, "plus or minus, plus minus, ±, give or take, +/-"]]);

/** The slot `{difference}`: "half a degree", "2 °f", "plus or minus 0.3 c". Never adds the 32. */
export function readDifference(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<DifferenceValue>[] {
  const start = readTolerance(words, from)[0]?.next ?? from;
  return byLength(
    readNumber(words, start).flatMap((number) =>
      readScaleBehind(words, number.next).flatMap(({ value: scale, next }) => {
        if (isArticle(words, start, next)) return [];
        const heard = words.slice(from, next).join(" ");
        const value = isUnreadable(number.value)
          ? { unreadable: heard }
          : settle(number.value, scale ?? listening.degrees, heard);
        return [{ value, next }];
      }),
    ),
  );
}

function settle(amount: number, scale: Degrees | undefined, heard: string): DifferenceValue {
  if (!Number.isFinite(amount * 5)) return { unreadable: heard };
  const fahrenheit = differenceFromFahrenheit(amount);
  if (scale !== undefined) return scale === "C" ? amount : fahrenheit;
  return {
    unsettled: "degrees",
    heard,
    choices: [
      { word: "celsius", value: amount },
      { word: "fahrenheit", value: fahrenheit },
    ],
  };
}
