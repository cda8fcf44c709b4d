import type { ReaderName } from "../../language/readers/all.ts";

/** Names the bench has given, in words as they are spoken. */
export type OwnNames = {
  readonly bottle: readonly string[];
  readonly tank: readonly string[];
  readonly sheet: readonly string[];
  readonly thermometer: readonly string[];
};

/** What a tank may be called that has no name yet: closed, so that it can be heard. */
const newTanks = ["north", "south", "east", "west", "alder", "willow"] as const;
/** Letters that parts of a kit go by. */
const PARTS = "(a|b|c|d)";

/** The bench's own names for a slot, as a choice; undefined for slots that take no name. */
export function spokenName(
  slot: string,
  reader: ReaderName | undefined,
  names: OwnNames,
): string | undefined {
  switch (reader) {
    case "bottle":
    case "held":
      return choice(names.bottle);
    // Only tanks there are: every name more is one more to be taken for something else.
    case "tank":
      return choice(names.tank);
    case "newTank":
      return choice([...names.tank, ...newTanks]);
    case "sheet":
      return choice(names.sheet);
    case "word":
      if (slot === "part") return PARTS;
      return slot === "thermometer" || slot === "other" ? choice(names.thermometer) : undefined;
    default:
      return undefined;
  }
}

const choice = (names: readonly string[]): string | undefined => {
  const sayable = [...new Set(names.map(spokenForm))].filter((name) => name !== "");
  return sayable.length === 0 ? undefined : `(${sayable.join("|")})`;
};

/** A name in words the recogniser can be given; empty when it holds anything but letters. */
export function spokenForm(name: string): string {
  const words = name.toLowerCase().normalize("NFKC").split(/\s+/);
  return words.every((word) => /^[\p{L}'-]+$/u.test(word)) ? words.join(" ") : "";
}
