import { showMark } from "../domain/film/check-load.ts";
import { callRoll, type Roll, showPush } from "../domain/film/roll.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import type { Run } from "../domain/session/run.ts";
import type { RollsMeant } from "../language/readers/rolls.ts";
import { type Json, type Reply, refuse } from "../reply/reply.ts";

/** What is known of a roll, behind its name. */
export function rollWords(roll: Roll): string {
  const { format, stock, marked, push, rated, important, doubtful, blackBacked, note } = roll;
  return [
    stock === undefined ? format : `${format} ${stock}`,
    marked === undefined ? "marking not stated" : showMark(marked),
    ...(push === 0 ? [] : [showPush(push)]),
    ...(rated === undefined ? [] : [`rated ${rated}`]),
    ...(blackBacked === undefined ? [] : [blackBacked ? "black-backed" : "no backing"]),
    ...(important ? ["important"] : []),
    ...(doubtful ? ["doubtful film"] : []),
    ...(note === undefined ? [] : [`note: ${note}`]),
  ].join(", ");
}

export const rollLine = (roll: Roll): string => `${callRoll(roll)}: ${rollWords(roll)}`;

export const rollJson = (roll: Roll): Json => ({
  number: roll.number,
  name: roll.name ?? null,
  format: roll.format,
  film: roll.stock ?? null,
  marked: roll.marked ?? null,
  push_stops: roll.push,
  rated: roll.rated ?? null,
  black_backed: roll.blackBacked ?? null,
  important: roll.important,
  doubtful: roll.doubtful,
  note: roll.note ?? null,
  added_on: roll.addedOn ?? null,
  done_in: roll.doneIn ?? null,
});

export const rollJsonKeys =
  "number, name, format, film, marked, push_stops, rated, black_backed, important, doubtful, note, added_on, done_in";

/** The rolls that were meant, or what to say when one of them is not there. */
export function rollsMeant(
  bench: Bench,
  { ids, unknown }: RollsMeant,
): { readonly rolls: readonly Roll[] } | { readonly reply: Reply } {
  const [first] = unknown;
  if (first !== undefined) {
    return {
      reply: refuse("no-such-roll", `I know no roll ${first}. Say rolls for those I have.`, {
        facts: { unknown: [...unknown] },
      }),
    };
  }
  const rolls = ids.flatMap((id) => ownValue(bench.rolls, id) ?? []);
  if (rolls.length > 0) return { rolls };
  return {
    reply: refuse("no-such-roll", "No rolls are on the list. Say add two rolls of 120 C-41."),
  };
}

/** The open run a roll is loaded in. */
export const runOfRoll = (bench: Bench, roll: Roll): Run | undefined =>
  liveRuns(bench).find((run) => run.rolls?.includes(roll.id) === true);

/** A roll that is in a tank, done or dropped is not changed any more. */
export function isSettled(bench: Bench, roll: Roll): Reply | undefined {
  const run = runOfRoll(bench, roll);
  if (run !== undefined) {
    return refuse(
      "in-use",
      `${callRoll(roll)} is loaded in ${run.tank}. Finish or stop that run first.`,
      { say: `Roll ${roll.number} is in ${run.tank}.` },
    );
  }
  if (roll.doneIn !== undefined) {
    return refuse("already-done", `${callRoll(roll)} has been processed; its record stays.`);
  }
  if (roll.droppedOn !== undefined) {
    return refuse("dropped", `${callRoll(roll)} was taken off the list; its record stays.`);
  }
  return undefined;
}
