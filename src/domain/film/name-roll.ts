import { capital } from "../capital.ts";
import { freeName, soundsLike } from "../chemistry/name-bottle.ts";
import { isWaiting, type Roll } from "./roll.ts";
import { sharedName } from "./roll-names.ts";

/** Words that mean rolls in general, or that a sentence goes on with. */
const taken: ReadonlySet<string> = new Set(
  "all every everything it this that they roll rolls film films sheet tank tonight plan none in out up next again hold ready time left help".split(
    " ",
  ),
);

export type NameTrouble =
  | { readonly kind: "no-name"; readonly name: string }
  | { readonly kind: "sounds-alike"; readonly name: string; readonly alike: string };

/** What is wrong with a new name for rolls, among those that wait; undefined when it is free. */
export function checkRollName(
  name: string,
  rolls: readonly Roll[],
  own: readonly string[] = [],
): NameTrouble | undefined {
  if (taken.has(name) || !/\p{L}/u.test(name)) return { kind: "no-name", name };
  const names = new Set(
    rolls.flatMap((roll) =>
      roll.name === undefined || own.includes(roll.id) || !isWaiting(roll)
        ? []
        : [sharedName(roll.name)],
    ),
  );
  // Most names are free, and that is settled with each of them sounded out once.
  if (freeName([name], [...names]) !== undefined) return undefined;
  const alike = [...names].find((other) => soundsLike(name, other)) ?? name;
  return { kind: "sounds-alike", name, alike };
}

export function explainName(trouble: NameTrouble): string {
  return trouble.kind === "no-name"
    ? `"${trouble.name}" is a word I use for other things. Give the roll another name.`
    : `${capital(trouble.name)} sounds like ${capital(trouble.alike)}, which waits on the list. Give it another name.`;
}

/** A name for each of several rolls: one keeps it, more are numbered. */
export const spreadName = (
  name: string | undefined,
  count: number,
): readonly (string | undefined)[] =>
  Array.from({ length: count }, (_, at) =>
    name === undefined || count === 1 ? name : `${name} ${at + 1}`,
  );
