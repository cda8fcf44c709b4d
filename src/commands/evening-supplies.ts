import { shippedSheets } from "../data/sheets.ts";
import { contentsOf } from "../domain/chemistry/bottle.ts";
import { better, type CapacityLeft, isDoubtful } from "../domain/chemistry/capacity-left.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import type { EveningBottle, Lasting, Supply } from "../domain/film/evening.ts";
import { markOf, type ProcessMark } from "../domain/film/process-mark.ts";
import { type Bath, isDeveloper, isWater, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { benchCapacity } from "./bottle-looks.ts";
import { developing } from "./developing.ts";
import { setupOf } from "./evening-times.ts";
import { figuresFor } from "./own-figures.ts";
import { sheetFor } from "./sheets.ts";

/** What one process is done with tonight: its sheet, the bottles of each bath, and what they allow. */
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
  const found = needed.map((bath) => ({ bath, looks: bottlesFor(bath, process, capacity) }));
  const bottled = found.filter(({ looks }) => looks.length > 0);
  const without = timed.filter((bath) => !bottled.some((one) => one.bath === bath));
  const unruled = new Set<number>();
  /** Minutes of a bath from a bottle, at each push that waits. */
  const lasting = (bath: Bath, look: BottleLook | undefined): Lasting => {
    const plain = timeOf(sheet, bath, look, 0) ?? bath.time?.value ?? 0;
    const pushed = pushes.flatMap((push) => {
      const time = push === 0 ? plain : timeOf(sheet, bath, look, push);
      if (time === undefined) unruled.add(push);
      return time === undefined ? [] : [[push, time / 60] as const];
    });
    return { minutes: plain / 60, pushed: new Map(pushed) };
  };
  const rest = without.map((bath) => lasting(bath, undefined));
  const around = (timed.length * (bench.window / 2) + setupOf(bench)) / 60;
  const sum = (push: number): number =>
    rest.reduce((time, one) => time + (one.pushed?.get(push) ?? one.minutes), around);
  const baths = bottled.map(({ bath, looks }) =>
    looks.map(
      (look): EveningBottle => ({
        name: look.bottle.name,
        unitsLeft: look.unitsLeft,
        volume: contentsOf(look.bottle),
        doubtful: isDoubtful(look),
        ...lasting(bath, look),
      }),
    ),
  );
  return {
    supply: {
      process,
      minutes: sum(0),
      pushed: new Map(pushes.map((push) => [push, sum(push)] as const)),
      baths,
    },
    sheet,
    chosen,
    bottles: bottled.flatMap(({ looks }) => looks),
    unruled: [...unruled],
    unbottled: found.flatMap(({ bath, looks }) => (looks.length === 0 ? [bath.name] : [])),
    uncounted: bottled.flatMap(({ bath, looks }) =>
      looks.some(({ unitsLeft }) => unitsLeft === undefined) ? [bath.name] : [],
    ),
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
  const figures = figuresFor(sheet, bath, look);
  const worked = developing("start", {}, figures.sheet, figures.bath, look, stops, undefined);
  return worked !== undefined && "found" in worked ? worked.found.time.value : undefined;
}

/**
 * The bottles a bath may be poured from, in the order in which they are best used up. One that is
 * suspect only where there is no other.
 */
function bottlesFor(
  bath: Bath,
  process: ProcessMark,
  capacity: readonly CapacityLeft[],
): readonly BottleLook[] {
  const holding = capacity
    .filter(
      (one) =>
        (one.kind === bath.kind || one.kind === bath.name) &&
        (one.process === undefined || markOf(one.process) === process),
    )
    .flatMap(({ bottles }) => bottles)
    .toSorted(better);
  const usable = holding.filter(({ state }) => state !== "suspect");
  return usable.length > 0 ? usable : holding;
}
