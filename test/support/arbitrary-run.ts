import fc from "fast-check";
import type { Run, Stage } from "../../src/domain/session/run.ts";
import { seconds } from "../../src/domain/units/quantity.ts";
import { runOf, stageOf } from "./runs.ts";

const s = (min: number, max: number) => fc.integer({ min, max }).map(seconds);
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });

const kinds = ["developer", "bleach", "fixer", "blix", "wash", "stabilizer"] as const;

const agitation = fc
  .record({
    initial: s(0, 400),
    rest: maybe(s(0, 60)),
    every: maybe(s(2, 120)),
    each: maybe(s(1, 20)),
  })
  .map((one) => ({ ...one, origin: { kind: "invented" } as const }));

/** A stage with any plausible figures, and some that are only just possible. */
export const arbitraryStage: fc.Arbitrary<Stage> = fc
  .record({
    kind: fc.constantFrom(...kinds),
    sense: fc.constantFrom("exact", "at least"),
    time: s(11, 600),
    drain: s(5, 10),
    agitation: maybe(agitation),
    vent: maybe(s(0, 30)),
    skipped: fc.constantFrom(undefined, undefined, undefined, true),
  })
  .map(({ kind, ...rest }) => stageOf({ bath: kind, kind, ...rest }));

/** A planned run of up to five stages; its first is never skipped, as a plan has none. */
export const arbitraryRun: fc.Arbitrary<Run> = fc
  .record({
    stages: fc.array(arbitraryStage, { minLength: 1, maxLength: 5 }),
    window: s(4, 120),
    lead: fc.integer({ min: 0, max: 120 }),
  })
  .map(({ stages: [first = stageOf(), ...others], window, lead }) =>
    runOf([{ ...first, skipped: undefined }, ...others], { window, lead }),
  );
