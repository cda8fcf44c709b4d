import {
  compareScores,
  type Evening,
  type EveningBottle,
  type EveningPlan,
  type EveningRoll,
  type EveningTank,
  type Score,
  type Supply,
} from "../../src/domain/film/evening.ts";
import { type FilmFormat, filmUnits } from "../../src/domain/film/load.ts";
import type { ProcessMark } from "../../src/domain/film/process-mark.ts";
import { millilitres, units } from "../../src/domain/units/quantity.ts";

/** INVENTED rolls, tanks and figures throughout: only the rules are under test. */
export const rollOf = (id: string, change: Partial<EveningRoll> = {}): EveningRoll => {
  const format = change.format ?? "135-36";
  return {
    id,
    format,
    units: filmUnits([{ format, count: 1 }]),
    marked: "C-41",
    push: 0,
    important: false,
    doubtful: false,
    backing: false,
    ...change,
  };
};

export const reelOf = (takes: readonly FilmFormat[], ml: number, rolls = 1) => ({
  takes: [...takes],
  rolls,
  ml: millilitres(ml),
});

export const small = ["135-36", "135-24", "135-12"] as const;

export const bottleOf = (name: string, change: Partial<EveningBottle> = {}): EveningBottle => ({
  name,
  minutes: 0,
  unitsLeft: undefined,
  volume: undefined,
  doubtful: false,
  ...change,
});

/** A supply of the baths given, or of one bath in one bottle. */
export const supplyOf = (
  change: Partial<Supply> & Partial<Pick<EveningBottle, "unitsLeft" | "volume" | "doubtful">> = {},
): Supply => {
  const { unitsLeft, volume, doubtful = false, ...own } = change;
  const process = own.process ?? "C-41";
  const only = bottleOf(`${process} bottle`, { unitsLeft, volume, doubtful });
  return { process, minutes: 40, baths: [[only]], ...own };
};

const pick = <T>(from: readonly T[], chance: () => number): T =>
  from[Math.floor(chance() * from.length)] as T;

/** A made-up evening of `count` rolls; the same numbers from `chance` give the same evening. */
export function anyEvening(chance: () => number, count: number, tanks: number): Evening {
  const marks: readonly (ProcessMark | undefined)[] = ["C-41", "C-41", "C-41", "E-6", undefined];
  const layouts = [
    [[reelOf(small, 300)], [reelOf(["120"], 500)]],
    [[reelOf(small, 300), reelOf(small, 300)], [reelOf(["120"], 500, 2)]],
    [[reelOf(small, 250), reelOf(["120"], 480)]],
    [[reelOf([...small, "120"], 500), reelOf(["120", "220"], 550)]],
    [[reelOf(small, 240), reelOf(small, 240), reelOf(small, 240), reelOf(small, 240)]],
  ];
  return {
    rolls: Array.from({ length: count }, (_, at) =>
      rollOf(`r${at}`, {
        format: pick(["135-36", "135-36", "135-24", "120", "120", "220"], chance),
        marked: count > 8 && chance() < 0.8 ? "C-41" : pick(marks, chance),
        push: pick([0, 0, 0, 1, 2], chance),
        important: chance() < 0.35,
        doubtful: chance() < 0.25,
      }),
    ).map((roll) => ({ ...roll, units: filmUnits([{ format: roll.format, count: 1 }]) })),
    tanks: Array.from(
      { length: tanks },
      (_, at): EveningTank => ({
        name: `tank ${at}`,
        layouts: pick(layouts, chance),
      }),
    ),
    supplies: [
      supplyOf({
        minutes: pick([30, 40], chance),
        unitsLeft: chance() < 0.6 ? units(pick([1, 2, 3, 3.5, 5, 8], chance)) : undefined,
        volume: chance() < 0.5 ? millilitres(pick([500, 600, 1000], chance)) : undefined,
        doubtful: chance() < 0.4,
        pushed:
          chance() < 0.4
            ? new Map([
                [1, 45],
                [2, 52],
              ])
            : undefined,
      }),
      supplyOf({ process: "E-6", minutes: 55, doubtful: chance() < 0.4 }),
    ],
    minutes: pick([50, 90, 120, 180, 260, 600], chance),
    drying: pick([0, 20, 30, 60], chance),
  };
}

/** The same evening with one to three bottles for each of one to three baths. */
export function withBottles(of: Evening, chance: () => number, most: number): Evening {
  const some = (): number => 1 + Math.floor(chance() * most);
  const bottle = (name: string): EveningBottle =>
    bottleOf(name, {
      minutes: pick([0, 0, 3, 5.5], chance),
      unitsLeft: chance() < 0.7 ? units(pick([1, 1, 2, 2.5, 3, 4], chance)) : undefined,
      volume: chance() < 0.3 ? millilitres(pick([500, 600, 1000], chance)) : undefined,
      doubtful: chance() < 0.3,
      pushed: chance() < 0.3 ? new Map([[1, 7]]) : undefined,
    });
  return {
    ...of,
    supplies: of.supplies.map((supply) => ({
      ...supply,
      baths: Array.from({ length: pick([1, 2, 2], chance) }, (_, bath) =>
        Array.from({ length: some() }, (_, at) => bottle(`${supply.process} ${bath}${at}`)),
      ),
    })),
  };
}

type Sketch = {
  readonly rolls: readonly EveningRoll[];
  readonly tank: EveningTank;
  readonly bottles: readonly EveningBottle[];
};

/** Every way to take one bottle of each bath. */
const everyPour = (baths: Supply["baths"]): readonly (readonly EveningBottle[])[] =>
  baths.reduce<readonly (readonly EveningBottle[])[]>(
    (pours, bath) => pours.flatMap((pour) => bath.map((bottle) => [...pour, bottle])),
    [[]],
  );

/** The least solution by trying every place for every roll; undefined when one has none. */
export function coveredBy(tank: EveningTank, rolls: readonly EveningRoll[]): number | undefined {
  let least: number | undefined;
  for (const reels of tank.layouts) {
    const on = reels.map(() => 0);
    const place = (at: number): void => {
      const roll = rolls[at];
      if (roll === undefined) {
        const ml = reels.reduce((sum, reel, i) => sum + ((on[i] ?? 0) > 0 ? reel.ml : 0), 0);
        least = Math.min(least ?? ml, ml);
        return;
      }
      for (const [i, reel] of reels.entries()) {
        if (!reel.takes.includes(roll.format) || (on[i] ?? 0) >= reel.rolls) continue;
        on[i] = (on[i] ?? 0) + 1;
        place(at + 1);
        on[i] = (on[i] ?? 0) - 1;
      }
    };
    place(0);
  }
  return least;
}

/** The worth of a sequence of loads, judged from its beginning; undefined where it breaks a rule. */
export function judge(
  evening: Evening,
  sequence: readonly Sketch[],
  testers = testersOf(evening),
): Score | undefined {
  let clock = 0;
  const dry = new Map<string, number>();
  for (const { rolls, tank, bottles } of sequence) {
    const [first] = rolls;
    const supply = evening.supplies.find(({ process }) => process === first?.marked);
    if (first === undefined || supply === undefined) return undefined;
    const { push } = first;
    if (rolls.some((roll) => roll.marked !== first.marked || roll.push !== push)) return;
    if (bottles.length !== supply.baths.length) return undefined;
    if (bottles.some((bottle, bath) => !supply.baths[bath]?.includes(bottle))) return undefined;
    const volume = coveredBy(tank, rolls);
    if (volume === undefined) return undefined;
    if (bottles.some((bottle) => volume > (bottle.volume ?? Infinity))) return undefined;
    let takes = supply.pushed?.get(push) ?? supply.minutes;
    for (const bottle of bottles) takes += bottle.pushed?.get(push) ?? bottle.minutes;
    clock = Math.max(clock, dry.get(tank.name) ?? 0) + Math.ceil(takes);
    dry.set(tank.name, clock + evening.drying);
  }
  if (clock > evening.minutes) return undefined;
  const poured = new Set(sequence.flatMap(({ bottles }) => bottles));
  // A load that is the first from a doubtful bottle is a trial, whatever else it is poured from.
  const trials = new Set(
    [...poured]
      .filter((bottle) => bottle.doubtful && testers.has(bottle))
      .map((bottle) => sequence.find(({ bottles }) => bottles.includes(bottle))),
  );
  for (const trial of trials) {
    if (trial?.rolls.some(({ important }) => important)) return undefined;
    if (trial?.rolls.every(({ doubtful }) => doubtful)) return undefined;
  }
  for (const bottle of poured) {
    const own = sequence.filter(({ bottles }) => bottles.includes(bottle));
    const total = own.flatMap(({ rolls }) => rolls).reduce((sum, roll) => sum + roll.units, 0);
    if (total > (bottle.unitsLeft ?? Infinity) + 1e-9) return undefined;
    const matters = own
      .filter((load) => !trials.has(load))
      .map(({ rolls }) => rolls.some(({ important }) => important));
    if (matters.lastIndexOf(true) > matters.indexOf(false) && matters.includes(false)) return;
  }
  const done = sequence.flatMap(({ rolls }) => rolls);
  return {
    important: done.filter(({ important }) => important).length,
    rolls: done.length,
    units: done.reduce((sum, roll) => sum + roll.units, 0),
    doubtful: [...poured].filter(({ doubtful }) => doubtful).length,
    minutes: clock,
  };
}

/** Every load of one roll alone that breaks no rule of its own. */
const singles = (evening: Evening): readonly Sketch[] =>
  evening.rolls.flatMap((roll) => {
    const supply = evening.supplies.find(({ process }) => process === roll.marked);
    return everyPour(supply?.baths ?? []).flatMap((bottles) =>
      evening.tanks
        .map((tank) => ({ rolls: [roll], tank, bottles }))
        .filter((one) => judge(evening, [one], new Set()) !== undefined),
    );
  });

/** Bottles that some sound roll that does not matter could be tried in. */
const testersOf = (evening: Evening): ReadonlySet<EveningBottle> =>
  new Set(
    singles(evening).flatMap(({ rolls: [roll], bottles }) =>
      roll?.important === false && !roll.doubtful ? bottles : [],
    ),
  );

/** The best there is, by trying every sequence of loads of single rolls. Slow on purpose. */
export function exhaust(evening: Evening): Score {
  let best: Score = { important: 0, rolls: 0, units: 0, doubtful: 0, minutes: 0 };
  const testers = testersOf(evening);
  const ability = new Set(singles(evening).flatMap(({ rolls }) => rolls));
  const grow = (sequence: readonly Sketch[], left: readonly EveningRoll[]): void => {
    const score = judge(evening, sequence, testers);
    if (score === undefined) return;
    if (compareScores(score, best) < 0) best = score;
    for (let set = 1; set < 1 << left.length; set += 1) {
      const rolls = left.filter((_, at) => (set >> at) & 1);
      const supply = evening.supplies.find(({ process }) => process === rolls[0]?.marked);
      if (rolls.some(({ marked }) => marked !== rolls[0]?.marked)) continue;
      const rest = left.filter((_, at) => !((set >> at) & 1));
      for (const bottles of everyPour(supply?.baths ?? [])) {
        for (const tank of evening.tanks) grow([...sequence, { rolls, tank, bottles }], rest);
      }
    }
  };
  grow([], [...ability]);
  return best;
}

/** A plan as the sequence it stands for, so that it can be judged like any other. */
export const sequenceOf = (evening: Evening, plan: EveningPlan): readonly Sketch[] =>
  plan.loads.map(({ rolls, tank, process, bottles }) => ({
    rolls: rolls.map((id) => {
      const roll = evening.rolls.find((one) => one.id === id);
      if (roll === undefined) throw new Error(`no roll ${id}`);
      return roll;
    }),
    tank: evening.tanks.find(({ name }) => name === tank) ?? { name: "", layouts: [] },
    bottles: bottles.flatMap(
      (name) =>
        evening.supplies
          .find((supply) => supply.process === process)
          ?.baths.flat()
          .find((bottle) => bottle.name === name) ?? [],
    ),
  }));
