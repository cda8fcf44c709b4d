import { markOf, type ProcessMark } from "../film/process-mark.ts";
import { peopleOf } from "../session/people-of.ts";
import type { Run, Stage } from "../session/run.ts";
import { touchedBy } from "../session/touched.ts";
import type { Celsius, Seconds } from "../units/quantity.ts";
import { secondsBetween } from "../units/quantity.ts";
import { type StageFault, stageFaults } from "./stage-faults.ts";

/** What a search asks of a run. Names in lower case. */
export type RunFacts = {
  readonly mark: ProcessMark | undefined;
  readonly tank: string;
  /** Who planned, poured, read or noted. */
  readonly people: ReadonlySet<string>;
  /** Ids of bottles whose solution met the film. */
  readonly bottles: ReadonlySet<string>;
  readonly thermometers: ReadonlySet<string>;
  readonly sheets: ReadonlySet<string>;
  readonly faults: readonly StageFault[];
};

/** Worked out once for each run, since an ended one never changes. Asked of thousands at a time. */
export function factsOf(run: Run): RunFacts {
  const before = known.get(run);
  if (before !== undefined) return before;
  const facts = workedOut(run);
  known.set(run, facts);
  return facts;
}

const known = new WeakMap<Run, RunFacts>();

function workedOut(run: Run): RunFacts {
  const touched = touchedBy(run);
  return {
    mark: markOf(run.process),
    tank: run.tank.toLowerCase(),
    people: lower(peopleOf(run)),
    bottles: new Set(touched.bottles),
    thermometers: lower(touched.thermometers.filter((name) => name !== "")),
    sheets: new Set([touched.sheet, ...(touched.otherSheets ?? [])]),
    faults: stageFaults(run),
  };
}

const lower = (names: readonly string[]): ReadonlySet<string> =>
  new Set(names.map((name) => name.toLowerCase()));

const develops = ({ kind, inAt, outAt }: Stage): boolean =>
  kind.includes("developer") && inAt !== undefined && outAt !== undefined;

export type EdgeReading = { readonly temperature: Celsius; readonly verified: boolean };

/** The developer's temperature as it was read at its start or its end: the half of the bath it fell into. */
export function developerReading(run: Run, edge: "start" | "end"): EdgeReading | undefined {
  const index = run.stages.findIndex(develops);
  const stage = run.stages[index];
  if (stage?.inAt === undefined || stage.outAt === undefined) return undefined;
  const middle = (stage.inAt + stage.outAt) / 2;
  let found: Run["readings"][number] | undefined;
  for (const reading of run.readings) {
    if (reading.stage !== index || reading.at < middle !== (edge === "start")) continue;
    const better =
      found === undefined || (edge === "start" ? reading.at < found.at : reading.at >= found.at);
    if (better) found = reading;
  }
  return found === undefined
    ? undefined
    : { temperature: found.temperature, verified: found.unverified === undefined };
}

/** How long film really was in the first bath of a kind, where its end was heard. */
export function realTime(run: Run, kind: string): Seconds | undefined {
  const stage = run.stages.find((one) => isBath(one, kind) && one.inAt !== undefined);
  if (stage?.inAt === undefined || stage.outAt === undefined) return undefined;
  if (stage.plusMinus !== undefined || stage.outByClock === true) return undefined;
  return secondsBetween(stage.inAt, stage.outAt);
}

/** "Developer" is also a first or a colour developer. */
export const isBath = (
  stage: { readonly bath: string; readonly kind: string },
  named: string,
): boolean =>
  stage.kind === named ||
  stage.bath.toLowerCase() === named ||
  (named === "developer" && stage.kind.includes("developer"));
