import { z } from "zod";
import { err, ok, type Result } from "../result.ts";
import { storedNumber } from "../units/stored.ts";
import { type Repeatable, repeatableSchema } from "./repeatable.ts";

/** The longest block that is looked at, in characters; a real one has a few hundred. */
export const LONGEST_BLOCK = 8000;

const head = z.looseObject({ schema: z.literal("wetside-repeatable"), version: storedNumber });

/** A block that was pasted, or a sentence that says what is wrong with it. */
export function readRepeatable(text: string): Result<Repeatable, string> {
  if (text.length > LONGEST_BLOCK) {
    return err(`That block has ${text.length} characters; one to repeat has a few hundred.`);
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return err("That block is cut short or damaged. Copy it whole, from { to the last }.");
  }
  const known = head.safeParse(value);
  if (!known.success) return err("That is no run to repeat: its first words are not ours.");
  if (known.data.version > 1) {
    return err("That block was made by a newer Wetside. I know version 1.");
  }
  const parsed = repeatableSchema.safeParse(value);
  if (!parsed.success) {
    const place = parsed.error.issues[0]?.path.join(".") ?? "";
    return err(
      `That block does not hold what a run to repeat must hold${place === "" ? "" : ` (at ${place})`}.`,
    );
  }
  const names = parsed.data.baths.map(({ name }) => name.toLowerCase());
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  return twice === undefined ? ok(parsed.data) : err(`That block has the bath ${twice} twice.`);
}
