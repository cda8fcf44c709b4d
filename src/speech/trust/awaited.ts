import type { Pending } from "../../conversation/record.ts";
import type { Choice } from "../../conversation/understand.ts";
import type { Bench } from "../../domain/session/bench.ts";
import { liveRuns } from "../../domain/session/find-run.ts";
import { standing } from "../../domain/session/hear.ts";
import { isMixed } from "../../domain/session/mixing-walk.ts";
import type { Instant } from "../../domain/units/quantity.ts";

/** Seconds before a pour-out within which "out" is no surprise. */
const NEAR_OUT = 15;

/**
 * The commands the bench is waiting to hear: it asked for them by a cue or by the last step of a
 * mix. Saying one of them answers it.
 */
export function awaitedCommands(bench: Bench, now: Instant): ReadonlySet<string> {
  const awaited = new Set<string>();
  for (const run of liveRuns(bench)) {
    const at = standing(run, now);
    if (at.kind === "pouring") for (const name of ["in", "yes", "wait"]) awaited.add(name);
    if (at.kind === "planned") for (const name of ["ready", "wait"]) awaited.add(name);
    if (at.kind === "in" && at.untilPourOut <= NEAR_OUT) awaited.add("out");
  }
  const { mixing } = bench;
  if (mixing !== undefined && !isMixed(mixing)) {
    for (const name of ["part in", "water in", "clear"]) awaited.add(name);
  }
  return awaited;
}

/** Do these words answer the question that was put to this person? */
export function answers(
  { ask }: Pending,
  words: readonly string[],
  choice: Choice | undefined,
): boolean {
  // What is no command of its own can only be an answer.
  if (choice === undefined || choice.command.name === "yes" || choice.command.name === "cancel") {
    return true;
  }
  const said = words.join(" ");
  if (ask.options?.some(({ word }) => word.toLowerCase() === said) === true) return true;
  return choice.command.name === ask.command;
}
