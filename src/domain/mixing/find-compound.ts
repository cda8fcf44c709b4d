import { err, ok, type Result } from "../result.ts";
import type { Compound } from "./swap.ts";

export type FindCompoundError =
  | { readonly kind: "unknown-compound"; readonly said: string }
  | {
      readonly kind: "which-compound";
      readonly said: string;
      readonly choices: readonly string[];
    };

const folded = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s,-]+/g, " ")
    .trim();
/** The name without its water: "sodium carbonate" of "sodium carbonate, monohydrate". */
const bare = (compound: Compound): string => folded(compound.name.split(",")[0] ?? "");

/**
 * Finds a compound by id, name, formula or alias, whatever the case or hyphens. A bare name that
 * several hydrates share is not guessed: which water is in the jar changes the weight.
 *
 * @param compounds  the table to look in
 * @param said       what was said
 */
export function findCompound(
  compounds: readonly Compound[],
  said: string,
): Result<Compound, FindCompoundError> {
  const wanted = folded(said);
  const exact = compounds.find((compound) =>
    [compound.id, compound.name, compound.formula, ...compound.aliases].some(
      (name) => folded(name) === wanted,
    ),
  );
  if (exact) return ok(exact);
  const sharing = compounds.filter((compound) => bare(compound) === wanted);
  const [only] = sharing;
  if (only === undefined) return err({ kind: "unknown-compound", said });
  if (sharing.length === 1) return ok(only);
  return err({ kind: "which-compound", said, choices: sharing.map(({ name }) => name) });
}

/** What was read and what to give instead, in one sentence. */
export function explainFindCompound(error: FindCompoundError): string {
  switch (error.kind) {
    case "unknown-compound":
      return `I do not know "${error.said.slice(0, 40)}": give its name with its water, such as "sodium carbonate, monohydrate".`;
    case "which-compound":
      return `Which one: ${error.choices.join("; ")}?`;
  }
}
