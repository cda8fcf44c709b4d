import fc from "fast-check";
import { clearParts, edgeNumbers, places, rebates } from "../../src/domain/record/first-look.ts";
import { type Bench, newBench } from "../../src/domain/session/bench.ts";
import { countFilm } from "../../src/domain/session/count-film.ts";
import { deeds, type Run } from "../../src/domain/session/run.ts";
import {
  celsius,
  celsiusDifference,
  instant,
  millilitres,
  seconds,
  units,
} from "../../src/domain/units/quantity.ts";
import { arbitraryRun } from "./arbitrary-run.ts";
import { livedRun } from "./lived-run.ts";
import { at } from "./runs.ts";

const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
const words = fc.constantFrom("one", "slow pour", "a & b <c>", "Ł'ö", "squeak");
const rgb = fc.record({
  red: fc.nat(255),
  green: fc.nat(255),
  blue: fc.nat(255),
  most: fc.constant(255),
});

const firstLook = fc.record({
  at: fc.nat(90_000).map((s) => at(40_000 + s)),
  edgeNumbers: maybe(fc.constantFrom(...edgeNumbers)),
  clearParts: maybe(fc.constantFrom(...clearParts)),
  rebate: maybe(fc.constantFrom(...rebates)),
  sameOnAll: maybe(fc.boolean()),
  place: maybe(fc.constantFrom(...places)),
  edge: maybe(rgb),
  grey: maybe(rgb),
});

/** Text that is nobody's but the bench's: it must never be found in a shared form. */
export const secrets = {
  person: "Quillaby",
  mixer: "Vornimar",
  place: "Thistledown cellar",
  note: "zzprivatenotezz",
  different: "zzprivatedifferentzz",
  roll: "Oxbowmere",
  rollNote: "zzprivaterollzz",
  stopped: "zzprivatestopzz",
  zone: "Europe/Lisbon",
  suspicion: "zzprivatesuspicionzz",
} as const;

type Change<T> = { [K in keyof T]?: T[K] | undefined };
/** A value without the keys that hold nothing. */
const kept = <T extends object>(value: T, change: Change<T>): T => {
  const all = Object.entries({ ...value, ...change }).filter(([, inner]) => inner !== undefined);
  return Object.fromEntries(all) as T;
};

/** INVENTED: a bench with a run that was planned, goes on or is over, and all that can be kept of it. */
export const arbitrarySession: fc.Arbitrary<{ readonly bench: Bench; readonly run: Run }> = fc
  .record({
    plan: arbitraryRun,
    lived: fc.boolean(),
    read: fc.array(
      fc.record({
        stage: fc.nat(4),
        into: fc.integer({ min: -60, max: 700 }),
        temperature: fc.integer({ min: 100, max: 450 }).map((tenths) => tenths / 10),
      }),
      { maxLength: 8 },
    ),
    off: fc.integer({ min: -30, max: 30 }),
    look: maybe(firstLook),
    tank: fc.constantFrom("North", `${secrets.person}'s tank`, "Łódź <2>"),
    thermometer: maybe(fc.constantFrom("red", "glass", secrets.mixer)),
    unverified: maybe(
      fc.constantFrom(
        "Unverified: the thermometer was not named.",
        `Unverified: this thermometer is marked suspect, ${secrets.suspicion}.`,
      ),
    ),
    count: fc.nat(4),
    push: maybe(fc.integer({ min: -2, max: 3 })),
    bottles: fc.boolean(),
    different: maybe(fc.constantFrom("", secrets.different)),
    speed: maybe(fc.integer({ min: 1, max: 60 })),
    note: words,
    late: maybe(fc.array(fc.nat(600).map(seconds), { minLength: 1, maxLength: 4 })),
  })
  .map((made) => {
    const banded: Run = {
      ...made.plan,
      tank: made.tank,
      film: made.count === 0 ? [] : [{ format: "120", count: made.count }],
      stages: made.plan.stages.map((stage, index) =>
        kept(stage, {
          ...(index % 2 === 0
            ? { temperature: celsius(38), tolerance: celsiusDifference(0.2) }
            : {}),
          bottle: made.bottles && stage.kind !== "wash" ? `bottle-${index}` : undefined,
          beatsLate: made.late,
        }),
      ),
    };
    const read = made.read.map((one) => ({ ...one, stage: one.stage % banded.stages.length }));
    const happened = made.lived ? livedRun(banded, { off: { 0: made.off }, read }) : banded;
    const run: Run = kept(happened, {
      readings: happened.readings.map((reading) =>
        kept(reading, {
          thermometer: made.thermometer,
          read: celsius(reading.temperature + 0.4),
          unverified: made.unverified,
        }),
      ),
      push: made.push,
      rehearsal: made.speed === undefined ? undefined : { speed: made.speed },
      notes: [{ at: at(50), text: `${made.note} ${secrets.note}` }],
      people: [
        { name: secrets.person, did: [...deeds] },
        { name: secrets.mixer, did: ["noted"] },
      ],
      after: made.different === undefined ? undefined : { different: made.different },
      stoppedBecause: made.lived ? undefined : secrets.stopped,
      firstLook:
        made.look === undefined ? undefined : kept(made.look, { at: instant(made.look.at) }),
      rolls: ["roll-1"],
    });
    const bench: Bench = {
      ...newBench("test", secrets.zone),
      runs: { [run.id]: run },
      rolls: {
        "roll-1": {
          id: "roll-1",
          number: 1,
          name: secrets.roll.toLowerCase(),
          format: "120",
          push: 0,
          important: false,
          doubtful: false,
          note: secrets.rollNote,
        },
      },
      bottles: Object.fromEntries(
        run.stages.flatMap(({ bottle, bath }) =>
          bottle === undefined
            ? []
            : [
                [
                  bottle,
                  {
                    id: bottle,
                    name: `Acorn ${bottle.at(-1)}`,
                    mark: "square",
                    bath,
                    volume: millilitres(1000),
                    mixedOn: "2026-11-01",
                    by: secrets.mixer,
                    used: units(1),
                    place: secrets.place,
                  },
                ] as const,
              ],
        ),
      ),
    };
    const counted = countFilm(bench, run.id);
    return { bench: counted, run: counted.runs[run.id] ?? run };
  });
