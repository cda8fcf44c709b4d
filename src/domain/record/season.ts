import { filmUnits, rollCount } from "../film/load.ts";
import { ownValue } from "../own-value.ts";
import type { Bench } from "../session/bench.ts";
import type { Run } from "../session/run.ts";
import { stageRecords } from "../session/summary.ts";
import { dayEnd, dayStart } from "../timing/day-bounds.ts";
import type { Instant } from "../units/quantity.ts";

export type SeasonProcess = {
  readonly process: string;
  readonly runs: number;
  readonly rolls: number;
  readonly units: number;
};

export type SeasonBottle = {
  readonly bottle: string;
  readonly mark: string;
  readonly bath: string;
  /** Film the season's runs put through it, units of 80 sq in. */
  readonly units: number;
  /** Its price over all the film it has ever done; undefined where no price was told. */
  readonly perRoll: { readonly amount: number; readonly currency: string } | undefined;
  readonly retired: boolean;
};

export type SeasonMonth = {
  /** "2026-11". */
  readonly month: string;
  readonly runs: number;
  /** Runs whose deviations are known: those made before they were kept are not. */
  readonly known: number;
  readonly deviations: number;
};

/** What a bench did between two days, both included. */
export type Season = {
  readonly from: string;
  readonly to: string;
  readonly runs: number;
  readonly rolls: number;
  readonly units: number;
  readonly processes: readonly SeasonProcess[];
  readonly bottles: readonly SeasonBottle[];
  readonly months: readonly SeasonMonth[];
};

/** One run as a season counts it, whether it is at hand or in a file of its own. */
type Counted = {
  readonly at: Instant;
  readonly process: string;
  readonly film: Run["film"];
  readonly bottles: readonly string[];
  readonly deviations: number | undefined;
};

/** What a season calls runs whose process was not kept when they were put away. */
export const UNKNOWN_PROCESS = "not kept";

/**
 * The season of a bench: rolls by process, bottles with their cost per roll, deviations by month.
 * Rehearsals and runs whose film never went in are left out.
 *
 * @param from  ISO date
 * @param to    ISO date
 */
export function seasonOf(bench: Bench, from: string, to: string): Season {
  const [begin, end] = [dayStart(from, bench.zone), dayEnd(to, bench.zone)];
  const runs = countedRuns(bench).filter(({ at }) => at >= begin && at < end);
  const film = runs.flatMap((run) => run.film);
  return {
    from,
    to,
    runs: runs.length,
    rolls: rollCount(film),
    units: filmUnits(film),
    processes: processesOf(runs),
    bottles: bottlesOf(bench, runs),
    months: monthsOf(runs, from, to, bench.zone),
  };
}

function countedRuns(bench: Bench): readonly Counted[] {
  const past = bench.pastRuns.flatMap((entry): Counted[] => {
    const { touched } = entry;
    return touched === undefined || touched.inBath === false
      ? []
      : [
          {
            at: entry.plannedAt,
            process: touched.process ?? UNKNOWN_PROCESS,
            film: touched.film,
            bottles: touched.bottles,
            deviations: touched.deviations,
          },
        ];
  });
  const present = Object.values(bench.runs).flatMap((run): Counted[] => {
    const poured = run.stages.some(({ inAt }) => inAt !== undefined);
    if (!poured || run.rehearsal !== undefined || run.nothingIn === true) return [];
    return [
      {
        at: run.plannedAt,
        process: run.process,
        film: run.film,
        bottles: pouredFrom(run),
        deviations: deviationsIn(run),
      },
    ];
  });
  return [...past, ...present];
}

const pouredFrom = ({ stages }: Run): readonly string[] => [
  ...new Set(
    stages.flatMap(({ bottle, inAt }) =>
      bottle === undefined || inAt === undefined ? [] : [bottle],
    ),
  ),
];

/** What may be shared of it: a bottle is called by its place in the list, since names may be people's. */
export const withoutNames = (season: Season): Season => ({
  ...season,
  bottles: season.bottles.map((one, index) => ({ ...one, bottle: `number ${index + 1}` })),
});

/** How many deviations a run has, as its summary counts them. */
export const deviationsIn = (run: Run): number =>
  stageRecords(run).reduce((sum, { deviations }) => sum + deviations.length, 0);

function processesOf(runs: readonly Counted[]): readonly SeasonProcess[] {
  const byName = Map.groupBy(runs, ({ process }) => process);
  return [...byName]
    .map(([process, own]) => {
      const film = own.flatMap((run) => run.film);
      return { process, runs: own.length, rolls: rollCount(film), units: filmUnits(film) };
    })
    .toSorted((one, other) => other.units - one.units || one.process.localeCompare(other.process));
}

function bottlesOf(bench: Bench, runs: readonly Counted[]): readonly SeasonBottle[] {
  const done = new Map<string, number>();
  for (const { bottles, film } of runs) {
    for (const id of bottles) done.set(id, (done.get(id) ?? 0) + filmUnits(film));
  }
  return [...done]
    .flatMap(([id, units]): SeasonBottle[] => {
      const bottle = ownValue(bench.bottles, id);
      if (bottle === undefined) return [];
      const { name, mark, bath, price, used, retiredOn } = bottle;
      const perRoll =
        price === undefined || used <= 0
          ? undefined
          : { amount: price.amount / used, currency: price.currency };
      return [{ bottle: name, mark, bath, units, perRoll, retired: retiredOn !== undefined }];
    })
    .toSorted((one, other) => other.units - one.units || one.bottle.localeCompare(other.bottle));
}

/** Every month of the season, those without a run too: a gap is a fact. */
function monthsOf(
  runs: readonly Counted[],
  from: string,
  to: string,
  zone: string,
): readonly SeasonMonth[] {
  const months: SeasonMonth[] = [];
  const last = Temporal.PlainDate.from(to).toPlainYearMonth();
  let month = Temporal.PlainDate.from(from).toPlainYearMonth();
  for (; Temporal.PlainYearMonth.compare(month, last) <= 0; month = month.add({ months: 1 })) {
    const begin = dayStart(month.toPlainDate({ day: 1 }).toString(), zone);
    const end = dayEnd(month.toPlainDate({ day: month.daysInMonth }).toString(), zone);
    const own = runs.filter(({ at }) => at >= begin && at < end);
    const known = own.filter(({ deviations }) => deviations !== undefined);
    months.push({
      month: month.toString(),
      runs: own.length,
      known: known.length,
      deviations: known.reduce((sum, { deviations = 0 }) => sum + deviations, 0),
    });
  }
  return months;
}
