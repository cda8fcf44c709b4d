/**
 * Who speaks at a bench.
 *
 * - `owner`: whoever sits at the console, and in Discord a member who may manage the server;
 * - `member`: who is listed, or has the bench's role;
 * - `guest`: anyone else.
 */
export const standings = ["owner", "member", "guest"] as const;
export type Standing = (typeof standings)[number];

/** Who may give a word: `owner` where it touches everyone at the bench at once. */
export const rights = ["anyone", "member", "owner"] as const;
export type Right = (typeof rights)[number];

const allowed: Readonly<Record<Right, readonly Standing[]>> = {
  anyone: ["owner", "member", "guest"],
  member: ["owner", "member"],
  owner: ["owner"],
};

export const mayUse = (standing: Standing, right: Right): boolean =>
  allowed[right].includes(standing);

/** As much of a command as says who may use it. */
export type Guarded = {
  readonly name: string;
  readonly who: Right;
  /** Fields only an owner gives. */
  readonly ownerFields: readonly string[];
  /** Fields that name a person: only an owner names another than themselves. */
  readonly selfFields: readonly string[];
};

/** What a command with these fields asks of whoever gives it, by the name they go by. */
export function rightNeeded(
  { who, ownerFields, selfFields }: Guarded,
  fields: Readonly<Record<string, unknown>>,
  speaker: string,
): Right {
  const isGiven = (name: string): boolean => fields[name] !== undefined;
  const isAnother = (name: string): boolean => isGiven(name) && !isSame(fields[name], speaker);
  return ownerFields.some(isGiven) || selfFields.some(isAnother) ? "owner" : who;
}

/** Whether a person that is named is who speaks. */
const isSame = (named: unknown, speaker: string): boolean =>
  typeof named === "string" && named.trim().toLowerCase() === speaker.trim().toLowerCase();

/** A row of the table of who may do what: a command, or one with a field that needs more. */
export type Permission = { readonly word: string; readonly right: Right };

/** The table for the commands of a bench; the words of a channel itself are added by the channel. */
export const permissionsOf = (commands: readonly Guarded[]): readonly Permission[] =>
  commands.flatMap(({ name, who, ownerFields, selfFields }) => [
    { word: name, right: who },
    ...selfFields.map((field) => ({ word: `${name} another ${field}`, right: "owner" as const })),
    ...ownerFields.map((field) => ({ word: `${name} ${field}`, right: "owner" as const })),
  ]);
