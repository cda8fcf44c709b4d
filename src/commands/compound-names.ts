import { distance } from "fastest-levenshtein";
import { compounds } from "../data/compounds.ts";
import { type FindCompoundError, findCompound } from "../domain/mixing/find-compound.ts";
import type { Compound } from "../domain/mixing/swap.ts";
import { err, type Result } from "../domain/result.ts";

/** How people shorten the water in a name. Common usage, no source. */
const water: ReadonlyMap<string, string> = new Map(
  [
    ["anhydrous", "anhydrous anhydrate anhyd anhydr desiccated dessicated"],
    ["monohydrate", "monohydrate monohydrated mono"],
    ["tetrahydrate", "tetrahydrate tetra"],
    ["pentahydrate", "pentahydrate pentahydrated penta"],
    ["heptahydrate", "heptahydrate hepta"],
    ["decahydrate", "decahydrate decahydrated deca"],
    ["dodecahydrate", "dodecahydrate dodeca"],
  ].flatMap(([name = "", ways = ""]) =>
    ways.split(" ").map((way): [string, string] => [way, name]),
  ),
);

const skipped = new Set("the a an my our some of form version one kind stuff and but".split(" "));

const wordsIn = (said: string): readonly string[] =>
  said
    .toLowerCase()
    .replace(/sulph/g, "sulf")
    .replace(/aluminium/g, "aluminum")
    .split(/[\s,]+/)
    .filter((word) => word !== "" && !skipped.has(word));

/** A name as said, taken apart: the salt, and the water where it was named. */
function apart(said: string): { readonly salt: string; readonly hydrate: string | undefined } {
  const words = wordsIn(said);
  const named = words.find((word) => water.has(word));
  return {
    salt: words.filter((word) => !water.has(word)).join(" "),
    hydrate: named === undefined ? undefined : water.get(named),
  };
}

/**
 * A compound by what was said, with the water before or behind: "anhydrous sodium carbonate". A
 * name that is only its water ("the monohydrate") is the same salt as `beside`.
 */
export function compoundSaid(said: string, beside: string): Result<Compound, FindCompoundError> {
  const whole = wordsIn(said).join(" ");
  const exact = findCompound(compounds, whole);
  if (exact.ok) return exact;
  const { salt: own, hydrate } = apart(said);
  const other = compoundOfSalt(apart(beside).salt);
  const salt = own === "" ? (other ?? apart(beside).salt) : (compoundOfSalt(own) ?? own);
  const found = findCompound(compounds, hydrate === undefined ? salt : `${salt} ${hydrate}`);
  if (found.ok) return found;
  if (found.error.kind === "which-compound") return found;
  return err({ kind: "unknown-compound", said: said.trim() });
}

/** The salt's own name where an everyday one was used: "washing soda" is sodium carbonate. */
function compoundOfSalt(salt: string): string | undefined {
  const found = findCompound(compounds, salt);
  if (found.ok) return found.value.name.split(",")[0]?.toLowerCase();
  return found.error.kind === "which-compound" ? salt : undefined;
}

/** The names that look most like what was said. */
export function nearestCompounds(said: string, count = 3): readonly string[] {
  const wanted = wordsIn(said).join(" ");
  const off = (compound: Compound): number =>
    Math.min(
      ...[compound.name, compound.name.split(",")[0] ?? "", ...compound.aliases].map((name) =>
        distance(wordsIn(name).join(" "), wanted),
      ),
    );
  return [...compounds]
    .sort((a, b) => off(a) - off(b))
    .slice(0, count)
    .map(({ name }) => name);
}
