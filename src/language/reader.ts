import type { RollNames } from "../domain/film/roll-names.ts";
import type { Country, Degrees } from "../domain/units/conversions.ts";
import type { Instant } from "../domain/units/quantity.ts";

/** What a slot reader may look at: the bench's own names and habits, and the moment. */
export type Listening = {
  readonly now: Instant;
  readonly zone: string;
  readonly country?: Country | undefined;
  readonly degrees?: Degrees | undefined;
  /** Spoken names by kind, lower case, each leading to the id the command will get. */
  readonly names: {
    readonly bottle: ReadonlyMap<string, string>;
    readonly sheet: ReadonlyMap<string, string>;
    readonly tank: ReadonlyMap<string, string>;
  };
  /** Rolls of film, where the bench has any. */
  readonly rolls?: RollNames | undefined;
};

/** One way to read words `from..next` (next is exclusive) as a value. */
export type Reading<T = unknown> = { readonly value: T; readonly next: number };

/**
 * Reads a slot at word `from`. Returns every sensible reading, the longest first; none when the
 * words are something else. Words are lower case, see `words.ts`.
 */
export type SlotReader<T = unknown> = (
  words: readonly string[],
  from: number,
  listening: Listening,
) => readonly Reading<T>[];

/**
 * A value that cannot be used before one question is answered. The conversation asks it, puts the
 * answer into `settle` and goes on.
 */
export type Unsettled<T = unknown> = {
  readonly unsettled:
    | "country"
    | "degrees"
    | "volume-unit"
    | "mass-unit"
    | "duration-unit"
    | "date";
  /** What was read, to say it back. */
  readonly heard: string;
  /** The question for the ear, at most 12 words, where reading out all the choices is too long. */
  readonly say?: string | undefined;
  /** The answers that can be given, each with the value it leads to. */
  readonly choices: readonly { readonly word: string; readonly value: T }[];
};

export const isUnsettled = (value: unknown): value is Unsettled =>
  typeof value === "object" && value !== null && "unsettled" in value;
