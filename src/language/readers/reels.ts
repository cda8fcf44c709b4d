import type { FilmFormat } from "../../domain/film/load.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { isUnsettled } from "../reader.ts";
import { readNumber } from "./number.ts";
import { phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";
import { readVolumeWithUnit } from "./volume.ts";

/** Reels as they were said. `each` is missing where several reels share one volume in words. */
export type SaidReels = {
  readonly count: number;
  readonly takes: readonly FilmFormat[];
  readonly rolls: number;
  readonly ml?: number;
  readonly each?: true;
};
/** The ways a tank can be filled, each a row of reels. */
export type SaidLayouts = readonly (readonly SaidReels[])[];
type Value = SaidLayouts | Unsettled<SaidLayouts> | Unreadable;

const small: readonly FilmFormat[] = ["135-36", "135-24", "135-12"];
/** Common usage, no source. */
const readKind = phrases<readonly FilmFormat[]>([
  [small, "35 mm, 35mm, 135, thirty five mm, thirty five millimetre, 35 millimetre, 35"],
  [small, "one thirty five, small film"],
  [["120"], "120, one twenty, medium format, roll film"],
  [["220"], "220, two twenty"],
  [["120", "220"], "120/220, 120 or 220, 120 and 220, one twenty or two twenty"],
  [["4x5"], "4x5, 4 x 5, 4 by 5, four by five"],
  [["5x7"], "5x7, 5 x 7, 5 by 7, five by seven"],
  [["8x10"], "8x10, 8 x 10, 8 by 10, eight by ten"],
]);
const readReel = phrases<true>([
  [true, "reel, reels, spiral, spirals, film reels, film reel, holder, holders"],
]);
const readOf = phrases<true>([
  [true, "of, at, with, needing, that need, that take, that hold, taking, using, needs, need"],
]);
const readEach = phrases<true>([[true, "each, a reel, per reel, apiece, a piece, for each"]]);
const readHolds = phrases<true>([
  [true, "for, each for, taking, that take, with room for, holding, that hold"],
]);
const readRolls = phrases<true>([[true, "roll, rolls, sheet, sheets, films"]]);

/** The slot `{reels}`: "two 35 mm reels of 300 ml each, or one 120 reel of 500 ml". */
export function readReels(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<Value>[] {
  const us = readWith(words, from, { ...listening, country: listening.country ?? "us" });
  if (us === undefined || isUnreadable(us.value) || listening.country !== undefined) {
    return us === undefined ? [] : [us as Reading<Value>];
  }
  const imperial = readWith(words, from, { ...listening, country: "imperial" });
  if (imperial === undefined || JSON.stringify(imperial.value) === JSON.stringify(us.value)) {
    return [us as Reading<Value>];
  }
  const choices = [
    { word: "us", value: us.value as SaidLayouts },
    { word: "imperial", value: imperial.value as SaidLayouts },
  ];
  const heard = words.slice(from, us.next).join(" ");
  return [{ value: { unsettled: "country", heard, choices }, next: us.next }];
}

function readWith(
  words: readonly string[],
  from: number,
  listening: Listening,
): Reading<SaidLayouts | Unreadable> | undefined {
  const layouts: SaidReels[][] = [[]];
  let at = from;
  for (let count = 0; count < 12; count += 1) {
    const or = count > 0 && words[at] === "or";
    const start = or || (count > 0 && words[at] === "and") ? at + 1 : at;
    const one = readRow(words, start, listening);
    if (one === undefined) break;
    if (isUnreadable(one.value)) return { value: one.value, next: one.next };
    if (or) layouts.push([]);
    layouts.at(-1)?.push(one.value);
    at = one.next;
  }
  return at === from ? undefined : { value: layouts, next: at };
}

function readRow(
  words: readonly string[],
  from: number,
  listening: Listening,
): Reading<SaidReels | Unreadable> | undefined {
  const counts = [...readNumber(words, from), { value: 1, next: from }];
  for (const { value: count, next: after } of counts) {
    const times = words[after] === "x" ? after + 1 : after;
    const before = readReel(words, times)[0];
    const of =
      before === undefined ? times : (readHolds(words, before.next)[0]?.next ?? before.next);
    const kind = readKind(words, of)[0];
    if (kind === undefined) continue;
    const reel = readReel(words, kind.next)[0] ?? before;
    if (reel === undefined) continue;
    if (isUnreadable(count)) return { value: count, next: kind.next };
    const base = { count, takes: kind.value, rolls: 1 };
    return readTail(words, Math.max(reel.next, kind.next), base, listening);
  }
  return undefined;
}

/** What follows the reels, in any order: their volume, and how many rolls one of them takes. */
function readTail(
  words: readonly string[],
  from: number,
  base: SaidReels,
  listening: Listening,
): Reading<SaidReels | Unreadable> {
  let reels = base;
  let at = from;
  for (let turn = 0; turn < 3; turn += 1) {
    const holds = readHolds(words, at)[0];
    const room = holds === undefined ? undefined : readNumber(words, holds.next)[0];
    const noun = room === undefined ? undefined : readRolls(words, room.next)[0];
    if (room !== undefined && noun !== undefined && !isUnreadable(room.value)) {
      reels = { ...reels, rolls: room.value };
      at = readEach(words, noun.next)[0]?.next ?? noun.next;
      continue;
    }
    const volume = readVolumeWithUnit(words, readOf(words, at)[0]?.next ?? at, listening)[0];
    if (volume === undefined) break;
    if (isUnreadable(volume.value)) return { value: volume.value, next: volume.next };
    if (isUnsettled(volume.value)) break;
    const each = readEach(words, volume.next)[0];
    reels = { ...reels, ml: volume.value, ...(each === undefined ? {} : { each: true as const }) };
    at = each?.next ?? volume.next;
  }
  return { value: reels, next: at };
}
