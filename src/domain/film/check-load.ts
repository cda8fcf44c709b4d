import { capital } from "../capital.ts";
import { err, ok, type Result } from "../result.ts";
import type { Millilitres } from "../units/quantity.ts";
import { demandOf, volumeFor } from "./fit-tank.ts";
import { type Film, showFilm } from "./load.ts";
import { markOf, type ProcessMark } from "./process-mark.ts";
import { callRoll, hasBacking, type Roll, showPush } from "./roll.ts";
import { showTank, type Tank } from "./tank.ts";

type Named = Pick<Roll, "id" | "number" | "name" | "format">;

export type LoadTrouble =
  | { readonly kind: "already-done"; readonly roll: Named }
  | { readonly kind: "dropped"; readonly roll: Named }
  | { readonly kind: "marking-not-stated"; readonly roll: Named }
  | { readonly kind: "process-not-known"; readonly process: string }
  | { readonly kind: "silver-in-colour"; readonly roll: Named; readonly bath: string }
  | { readonly kind: "black-backed"; readonly roll: Named }
  | {
      readonly kind: "wrong-process";
      readonly roll: Named;
      readonly marked: ProcessMark;
      readonly process: string;
    }
  | {
      readonly kind: "mixed-push";
      readonly one: Named & { push: number };
      readonly other: Named & { push: number };
    }
  | {
      readonly kind: "too-much-film";
      readonly tank: Pick<Tank, "name" | "layouts">;
      readonly film: readonly Film[];
    };

/** What a load goes into: a sheet's process, and the kinds of its baths. */
export type Baths = { readonly process: string; readonly kinds: readonly string[] };

/** Baths that take away a silver image or colour the film: all colour processes have one. */
const takesSilver = (kind: string): boolean => kind === "blix" || kind === "bleach";

/**
 * May these rolls go into one tank, in these baths? Job rules, common practice, no source: the
 * marking is stated, it is the sheet's process, one push in a tank. Silver film in bleach or blix
 * loses its image; black backing comes off in a shared bath and spoils it.
 *
 * @returns the push they share, in stops
 */
export function checkRolls(rolls: readonly Roll[], baths: Baths): Result<number, LoadTrouble> {
  for (const roll of rolls) {
    const trouble = checkRoll(roll, baths);
    if (trouble !== undefined) return err(trouble);
  }
  const [one] = rolls;
  const other = rolls.find(({ push }) => push !== one?.push);
  if (one !== undefined && other !== undefined) return err({ kind: "mixed-push", one, other });
  return ok(one?.push ?? 0);
}

function checkRoll(roll: Roll, { process, kinds }: Baths): LoadTrouble | undefined {
  if (roll.doneIn !== undefined) return { kind: "already-done", roll };
  if (roll.droppedOn !== undefined) return { kind: "dropped", roll };
  const { marked } = roll;
  if (marked === undefined) return { kind: "marking-not-stated", roll };
  const mark = markOf(process);
  const bleach = kinds.find(takesSilver);
  if (marked === "black-and-white" && mark !== "black-and-white" && bleach !== undefined) {
    return { kind: "silver-in-colour", roll, bath: bleach };
  }
  if (hasBacking(roll) && mark !== "ECN-2") return { kind: "black-backed", roll };
  if (mark === undefined) return { kind: "process-not-known", process };
  return marked === mark ? undefined : { kind: "wrong-process", roll, marked, process: mark };
}

/**
 * The solution that covers a load, by the reels that hold film.
 *
 * @returns nothing when the reels of the tank were never told
 */
export function checkTank(
  tank: Pick<Tank, "name" | "layouts"> | undefined,
  film: readonly Film[],
): Result<Millilitres | undefined, LoadTrouble> {
  if (tank === undefined || tank.layouts.length === 0 || film.length === 0) return ok(undefined);
  const formats = film.flatMap(({ format, count }) => Array.from({ length: count }, () => format));
  const volume = volumeFor(tank, demandOf(formats));
  return volume === undefined ? err({ kind: "too-much-film", tank, film }) : ok(volume);
}

/** What is wrong with a load and what to do instead, in a sentence or two. */
export function explainLoad(trouble: LoadTrouble): string {
  switch (trouble.kind) {
    case "already-done":
      return `${capital(callRoll(trouble.roll))} has been processed. Say rolls for those that wait.`;
    case "dropped":
      return `${capital(callRoll(trouble.roll))} was taken off the list. Say rolls for those that wait.`;
    case "marking-not-stated":
      return `What stands on ${callRoll(trouble.roll)}: C-41, E-6, ECN-2 or black and white? It goes into no tank before I know.`;
    case "process-not-known":
      return `The sheet calls its process "${trouble.process}", which is no marking I know, so no roll can be checked against it. Name the film instead: two 120.`;
    case "silver-in-colour":
      return `Stop. ${capital(callRoll(trouble.roll))} is black and white, and ${trouble.bath} takes its silver away: the image would be gone for ever. It needs a black-and-white sheet.`;
    case "black-backed":
      return `Stop. ${capital(callRoll(trouble.roll))} is black-backed movie film: the backing comes off in the bath, spoils the developer and sticks to every film in it. It needs ECN-2 baths of its own.`;
    case "wrong-process":
      return `${capital(callRoll(trouble.roll))} is marked ${showMark(trouble.marked)} and these baths are ${showMark(trouble.process)}. Start its own process, or mark it again if that is wrong.`;
    case "mixed-push":
      return `One tank has one time: ${callRoll(trouble.one)} is ${showOnePush(trouble.one.push)}, ${callRoll(trouble.other)} is ${showOnePush(trouble.other.push)}. Load them apart.`;
    case "too-much-film":
      return `${capital(trouble.tank.name)} takes ${showTank(trouble.tank)}; that has no place for ${showFilm(trouble.film)}. Load less, or name another tank.`;
  }
}

/** For the ear: at most 12 words. */
export function sayLoad(trouble: LoadTrouble): string {
  switch (trouble.kind) {
    case "already-done":
      return `Roll ${trouble.roll.number} has been processed already.`;
    case "dropped":
      return `Roll ${trouble.roll.number} is off the list.`;
    case "marking-not-stated":
      return `What stands on roll ${trouble.roll.number}?`;
    case "process-not-known":
      return "I do not know that sheet's process.";
    case "silver-in-colour":
      return `Stop. Roll ${trouble.roll.number} is black and white. It would be erased.`;
    case "black-backed":
      return `Stop. Roll ${trouble.roll.number} has a black backing. It spoils the bath.`;
    case "wrong-process":
      return `Roll ${trouble.roll.number} is marked ${showMark(trouble.marked)}, not ${showMark(trouble.process)}.`;
    case "mixed-push":
      return "Different pushes do not share a tank. Load them apart.";
    case "too-much-film":
      return `That does not fit into ${trouble.tank.name}. Load less.`;
  }
}

const showOnePush = (push: number): string => (push === 0 ? "not pushed" : showPush(push));
export const showMark = (mark: string): string =>
  mark === "black-and-white" ? "black and white" : mark;
