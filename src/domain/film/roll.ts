import { z } from "zod";
import { capital } from "../capital.ts";
import { storedId, storedNumber, storedPastDay } from "../units/stored.ts";
import { filmFormats } from "./load.ts";
import { processMarks } from "./process-mark.ts";

/** One roll or sheet of film that waits to be processed, or has been. */
export const rollSchema = z.object({
  id: storedId,
  /** Its number on this bench, for speaking; never given twice. */
  number: storedNumber.int().nonnegative().default(0),
  /** A name for speaking, lower case as it is heard: "beach", "beach 2". */
  name: z.string().optional(),
  format: z.enum(filmFormats),
  /** What film it is, in the user's own words. */
  stock: z.string().optional(),
  /** What stands on the cassette; missing: not stated, and then it goes into no tank. */
  marked: z.enum(processMarks).optional(),
  /** A black backing that comes off in the bath; missing: not stated. */
  blackBacked: z.boolean().optional(),
  /** The exposure index it was shot at. */
  rated: storedNumber.int().positive().optional(),
  /** Stops, negative for a pull. */
  push: storedNumber.int().min(-3).max(3).default(0),
  /** Cannot be taken again. */
  important: z.boolean().default(false),
  /** The film itself is in doubt (outdated, found, unknown): it proves nothing about a bath. */
  doubtful: z.boolean().default(false),
  note: z.string().optional(),
  /** ISO date in the bench's zone. */
  addedOn: storedPastDay.optional(),
  by: z.string().optional(),
  /** The run in which it really went into a bath. */
  doneIn: storedId.optional(),
  /** ISO date on which it was taken off the list undone; its record stays. */
  droppedOn: storedPastDay.optional(),
});
export type Roll = z.infer<typeof rollSchema>;

/** Still on the list: neither done nor dropped. */
export const isWaiting = (roll: Roll): boolean =>
  roll.doneIn === undefined && roll.droppedOn === undefined;

/** Movie film is taken to have its backing until it is said to have none. */
export const hasBacking = (roll: Pick<Roll, "marked" | "blackBacked">): boolean =>
  roll.blackBacked ?? roll.marked === "ECN-2";

type Called = Pick<Roll, "number" | "name" | "format">;

const noun = ({ format }: Called): string => (format.includes("x") ? "sheet" : "roll");

/** "roll 3 (Beach)": how a roll is called in a sentence. */
export const callRoll = (roll: Called): string =>
  `${noun(roll)} ${roll.number}${roll.name === undefined ? "" : ` (${capital(roll.name)})`}`;

/** The shortest that tells it: its name, or its number. */
export const shortRoll = (roll: Called): string =>
  roll.name === undefined ? `${noun(roll)} ${roll.number}` : capital(roll.name);

/** Several rolls at once: "rolls 1, 2 and 4". */
export function callRolls(rolls: readonly Called[]): string {
  const [only] = rolls;
  if (rolls.length === 1 && only !== undefined) return callRoll(only);
  const numbers = rolls.map(({ number }) => String(number));
  const last = numbers.pop();
  return `rolls ${numbers.join(", ")} and ${last}`;
}

export function showPush(push: number): string {
  if (push === 0) return "no push";
  const stops = Math.abs(push) === 1 ? "1 stop" : `${Math.abs(push)} stops`;
  return push > 0 ? `pushed ${stops}` : `pulled ${stops}`;
}
