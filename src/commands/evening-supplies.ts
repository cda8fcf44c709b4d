import { shippedSheets } from "../data/sheets.ts";
import { contentsOf } from "../domain/chemistry/bottle.ts";
import type { CapacityLeft } from "../domain/chemistry/capacity-left.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import type { Supply } from "../domain/film/evening.ts";
import { markOf, type ProcessMark } from "../domain/film/process-mark.ts";
import { type Bath, isDeveloper, isWater, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Instant, millilitres, units } from "../domain/units/quantity.ts";
import { benchCapacity } from "./bottle-looks.ts";
import { developing } from "./developing.ts";
import { setupOf } from "./evening-times.ts";
import { sheetFor } from "./sheets.ts";

/** What one process is done with tonight: its sheet, a bottle for each bath, and what they allow. */
export type EveningSupply = {
  readonly supply: Supply;
  readonly sheet: Sheet;
  /** The bench's own choice, not the shipped sheet that answers for it. */
  readonly chosen: boolean;
  readonly bottles: readonly BottleLook[];
  /** Pushes without a rule: their time is not counted. */
  readonly unruled: readonly number[];
  /** Baths for which no bottle is written down. */
  readonly unbottled: readonly string[];
  /** Baths whose capacity nobody knows. */
  readonly uncounted: readonly string[];
  readonly doubts: readonly string[];
};

/**
 * The processes a bench can do by its sheets, each with its bottles as they stand.
 *
 * @param wanted the pushes that wait, in stops, by process
 */
export function eveningSupplies(
  bench: Bench,
  now: Instant,
  wanted: ReadonlyMap<ProcessMark, readonly number[]>,
): readonly EveningSupply[] {
  const capacity = benchCapacity(bench, now);
  return [...wanted].flatMap(([process, pushes]) => {
    const found = sheetOf(bench, process);
    return found === undefined ? [] : [supplyBy(bench, process, found, capacity, pushes)];
  });
}

/**
 * The sheet in use where it is of this process, else one taught, else one that ships and is real.
 * One that leaves times open is no ground for a plan.
 */
function sheetOf(
  bench: Bench,
  process: ProcessMark,
): { readonly sheet: Sheet; readonly chosen: boolean } | undefined {
  const fits = (sheet: Sheet): boolean =>
    markOf(sheet.process) === process &&
    sheet.baths.every(({ time, kind }) => time !== undefined || isWater(kind));
  const inUse = sheetFor(bench, "process");
  if (inUse?.chosen === true && fits(inUse.sheet)) return inUse;
  const own = Object.values(bench.sheets).find(fits);
  if (own !== undefined) return { sheet: own, chosen: true };
  const shipped = shippedSheets.find((sheet) => !sheet.invented && fits(sheet));
  return shipped === undefined ? undefined : { sheet: shipped, chosen: false };
}

function supplyBy(
  bench: Bench,
  process: ProcessMark,
  { sheet, chosen }: { readonly sheet: Sheet; readonly chosen: boolean },
  capacity: readonly CapacityLeft[],
  pushes: readonly number[],
): EveningSupply {
  const timed = sheet.baths.filter(({ time }) => time !== undefined);
  const needed = timed.filter(({ kind }) => !isWater(kind));
  const found = needed.map((bath) => ({ bath, look: bottleFor(bath, process, capacity) }));
  const bottles = found.flatMap(({ look }) => look ?? []);
  const lefts = bottles.flatMap(({ unitsLeft }) => unitsLeft ?? []);
  const volumes = bottles.map(({ bottle }) => contentsOf(bottle));
  const minutes = (push: number): number | undefined => {
    const work = timed.map((bath) =>
      timeOf(sheet, bath, found.find((one) => one.bath === bath)?.look, push),
    );
    if (work.includes(undefined)) return undefined;
    const all = work.reduce<number>((sum, time) => sum + (time ?? 0) + bench.window / 2, 0);
    return Math.ceil((all + setupOf(bench)) / 60);
  };
  const pushed = pushes.flatMap((push) => {
    const takes = push === 0 ? undefined : minutes(push);
    return takes === undefined ? [] : [[push, takes] as const];
  });
  return {
    supply: {
      process,
      minutes: minutes(0) ?? 0,
      pushed: new Map(pushed),
      unitsLeft: lefts.length === 0 ? undefined : units(Math.min(...lefts)),
      volume: volumes.length === 0 ? undefined : millilitres(Math.min(...volumes)),
      doubtful: bottles.some(({ doubts }) => doubts.length > 0),
    },
    sheet,
    chosen,
    bottles,
    unruled: pushes.filter((push) => push !== 0 && !pushed.some(([one]) => one === push)),
    unbottled: found.flatMap(({ bath, look }) => (look === undefined ? [bath.name] : [])),
    uncounted: found.flatMap(({ bath, look }) =>
      look !== undefined && look.unitsLeft === undefined ? [bath.name] : [],
    ),
    doubts: bottles.flatMap(({ bottle, doubts }) => doubts.map((why) => `${bottle.name}: ${why}`)),
  };
}

/** A bath's time for a push as its bottle stands now; undefined where no rule gives one. */
function timeOf(
  sheet: Sheet,
  bath: Bath,
  look: BottleLook | undefined,
  push: number,
): number | undefined {
  if (!isDeveloper(bath.kind)) return bath.time?.value;
  const first = sheet.baths.find(({ kind }) => isDeveloper(kind));
  const stops = bath === first ? push : 0;
  const worked = developing("start", {}, sheet, bath, look, stops, undefined);
  return worked !== undefined && "found" in worked ? worked.found.time.value : undefined;
}

/** The bottle a bath is poured from: a sound one if there is any, of those the one that can take most. */
function bottleFor(
  bath: Bath,
  process: ProcessMark,
  capacity: readonly CapacityLeft[],
): BottleLook | undefined {
  const holding = capacity
    .filter(
      (one) =>
        (one.kind === bath.kind || one.kind === bath.name) &&
        (one.process === undefined || markOf(one.process) === process),
    )
    .flatMap(({ bottles }) => bottles);
  const sound = holding.filter(({ doubts }) => doubts.length === 0);
  return (sound.length > 0 ? sound : holding).toSorted(
    (a, b) => (b.unitsLeft ?? Infinity) - (a.unitsLeft ?? Infinity) || (a.age ?? 0) - (b.age ?? 0),
  )[0];
}
