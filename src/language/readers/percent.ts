import type { Reading } from "../reader.ts";
import { numberReader } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** Weight in volume, volume in volume, weight in weight. */
type PercentKind = "w/v" | "v/v" | "w/w";
export type Percent = { readonly percent: number; readonly kind?: PercentKind };

const readSign = phrases<true>([[true, "%, percent, per cent, pct, percentage"]]);

/** "By weight" compares weights, "by volume" volumes; a solid in a solution is said in full. */
const readKind = phrases<PercentKind>([
  ["w/v", "w/v, wv, w v, w per v, weight by volume, weight in volume, weight per volume"],
  ["w/v", "weight to volume, weight over volume, weight volume"],
  ["v/v", "v/v, vv, v v, by volume, volume by volume, volume in volume, volume per volume"],
  [
    "w/w",
    "w/w, ww, w w, by weight, by mass, weight by weight, weight in weight, weight per weight",
  ],
]);

/** The slot `{percent}`; the number by itself is the shortest reading. */
export function readPercent(
  words: readonly string[],
  from: number,
): readonly Reading<Percent | Unreadable>[] {
  return byLength(
    numberReader(words, from).flatMap((number) => {
      const sign = readSign(words, number.next)[0]?.next ?? number.next;
      const kind = readKind(words, sign)[0];
      const heard = (next: number, named?: PercentKind): Reading<Percent | Unreadable> => {
        if (isUnreadable(number.value)) return { value: unreadable(words, from, next), next };
        const percent = number.value;
        return { value: named === undefined ? { percent } : { percent, kind: named }, next };
      };
      return [
        ...(kind === undefined ? [] : [heard(kind.next, kind.value)]),
        ...(sign > number.next ? [heard(sign)] : []),
        heard(number.next),
      ];
    }),
  );
}
