import { markOf } from "../film/process-mark.ts";
import { callRoll, hasBacking, type Roll } from "../film/roll.ts";
import { showStops } from "../process/push-time.ts";
import type { Evidence, RunFacts } from "./run-facts.ts";
import { bleaches } from "./run-facts.ts";

/** What is known of the rolls: their marking, their push, their age. */
export function filmEvidence({ run, rolls }: RunFacts): readonly Evidence[] {
  if (rolls.length === 0) return [];
  const mark = markOf(run.process);
  const takesSilver = mark !== "black-and-white" && run.stages.some(({ kind }) => bleaches(kind));
  return [
    ...marking(rolls, run.process, mark, takesSilver),
    ...pushes(rolls, run.push ?? 0),
    ...state(rolls, mark),
  ];
}

function marking(
  rolls: readonly Roll[],
  process: string,
  mark: string | undefined,
  takesSilver: boolean,
): readonly Evidence[] {
  const marked = rolls.filter((roll) => roll.marked !== undefined);
  const other = marked.find((roll) => roll.marked !== mark);
  if (other !== undefined && mark !== undefined) {
    const silver = takesSilver && other.marked === "black-and-white";
    const text = `${callRoll(other)} is marked ${other.marked}, the baths were ${process}`;
    return [{ kind: silver ? "mark-silver" : "mark-other", text }];
  }
  if (marked.length < rolls.length || mark === undefined) return [];
  return [{ kind: "mark-right", text: `the film is marked ${mark}, as the baths are` }];
}

function pushes(rolls: readonly Roll[], given: number): readonly Evidence[] {
  const wanted = rolls.find(({ push }) => push !== given);
  if (wanted === undefined) {
    const text =
      given === 0 ? "no push was wanted and none given" : `${showStops(given)}, as wanted`;
    return [{ kind: "push-as-asked", text }];
  }
  const text = `${callRoll(wanted)} wanted ${showStops(wanted.push)}, the tank got ${showStops(given)}`;
  return [{ kind: wanted.push > given ? "push-missing" : "push-extra", text }];
}

function state(rolls: readonly Roll[], mark: string | undefined): readonly Evidence[] {
  const doubtful = rolls.find((roll) => roll.doubtful);
  const backed = mark === "ECN-2" ? undefined : rolls.find(hasBacking);
  return [
    ...(doubtful === undefined
      ? []
      : [
          { kind: "roll-doubtful", text: `${callRoll(doubtful)} was doubtful film from the start` },
        ]),
    ...(backed === undefined
      ? []
      : [{ kind: "roll-backed", text: `${callRoll(backed)} has a black backing` }]),
  ];
}
