import { type Amount, mass, showAmount, sizeOf, volume } from "./amount.ts";

/** The most that is taken for meant, mL or g: a guard against slips, no source. */
export const MOST = 200_000;

/** An amount that cannot be meant: zero, negative, or beyond `most`. */
export type WantedError =
  | { readonly kind: "nothing-to-mix"; readonly wanted: Amount }
  | { readonly kind: "too-large"; readonly wanted: Amount; readonly most: Amount };

/**
 * Looks at an amount a person asked for.
 *
 * @param wanted  mL or g
 * @param most    the largest amount taken for meant, in the same unit
 * @returns what is wrong with it, or undefined when it can be used
 */
export function checkWanted(wanted: Amount, most: number = MOST): WantedError | undefined {
  if (sizeOf(wanted) <= 0) return { kind: "nothing-to-mix", wanted };
  if (sizeOf(wanted) <= most) return undefined;
  return {
    kind: "too-large",
    wanted,
    most: wanted.kind === "volume" ? volume(most) : mass(most),
  };
}

/** What was read and what to give instead. */
export function explainWanted(error: WantedError): string {
  switch (error.kind) {
    case "nothing-to-mix":
      return `I read ${showAmount(error.wanted)}: give an amount above zero.`;
    case "too-large":
      return `I read ${showAmount(error.wanted)}, and I go up to ${showAmount(error.most)}: give a smaller amount.`;
  }
}
