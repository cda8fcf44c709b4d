import { z } from "zod";
import type { Command } from "../../../commands/define-command.ts";
import { emergencies } from "../../../data/safety.ts";
import { oncePer } from "../../../domain/once-per.ts";
import type { SlotReading } from "../../../language/match.ts";
import { type ReaderName, readers } from "../../../language/readers/all.ts";
import { fieldWords } from "./slash-field-words.ts";
import { slashHints } from "./slash-hints.ts";

export type SlashChoice = { readonly name: string; readonly value: string };

/** A field of a command as an option of its slash command. */
export type SlashField = {
  readonly field: string;
  /** Its name as an option: "to-volume" for toVolume. */
  readonly option: string;
  /** `phrase` is read by the field's reader as chat reads it; `words` are taken as they are typed. */
  readonly kind: "integer" | "number" | "boolean" | "choice" | "phrase" | "words";
  readonly required: boolean;
  readonly description: string;
  readonly reader: ReaderName | undefined;
  readonly slot: SlotReading | undefined;
  readonly least?: number | undefined;
  readonly most?: number | undefined;
  readonly longest?: number | undefined;
  readonly choices?: readonly SlashChoice[] | undefined;
  /** Only "true" says something. */
  readonly onlyTrue?: boolean | undefined;
};

/** What zod writes of one field; only what an option can use. */
const outline = z.looseObject({
  type: z.string().optional(),
  enum: z.array(z.unknown()).optional(),
  const: z.unknown().optional(),
  minimum: z.number().optional(),
  maximum: z.number().optional(),
  maxLength: z.number().optional(),
});
const outlines = z.object({
  properties: z.record(z.string(), outline).optional(),
  required: z.array(z.string()).optional(),
});

const MOST_CHOICES = 25;
const DESCRIPTION = 100;
/** What one message may hold in the conversation. */
const LONGEST = 1000;
/** Bounds of zod that mean "any whole number" are no bounds. */
const ANY = 1e9;

const nameOfReader = new Map(
  Object.entries(readers).map(([name, read]) => [read, name as ReaderName]),
);

/** Closed lists that stand in data or readers and not in the schema. */
const closed: Readonly<Record<string, readonly string[]>> = {
  "emergency.kind": emergencies.map(({ id }) => id),
  "looks.sign": ["yellow", "deposit", "dark", "crystals", "cloudy"],
};

/** Names as Discord wants them: lower case, no spaces, 32 characters at most. */
export const slashName = (name: string): string =>
  name
    .replace(/([a-z0-9])([A-Z])/g, "$1-$2")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 32);

/** At most 100 characters, cut behind a whole word. */
export function described(text: string): string {
  const whole = text.charAt(0).toUpperCase() + text.slice(1);
  if (whole.length <= DESCRIPTION) return whole;
  const head = whole.slice(0, DESCRIPTION - 1);
  return `${head.slice(0, head.lastIndexOf(" ")).replace(/[\s,;:.]+$/, "")}…`;
}

/** The fields somebody can say in a sentence, as options; those that must be given come first. */
export const slashFields = oncePer((command: Command): readonly SlashField[] => {
  const { properties = {}, required = [] } = outlines.parse(
    z.toJSONSchema(command.fields, { io: "input", unrepresentable: "any" }),
  );
  const spoken = new Set(command.sentences.flatMap(({ slots }) => slots));
  const fields = Object.entries(properties)
    .filter(([field]) => spoken.has(field) || closed[`${command.name}.${field}`] !== undefined)
    .map(([field, shape]) => optionOf(command, field, shape, required.includes(field)));
  return fields.toSorted((one, other) => Number(other.required) - Number(one.required));
});

function optionOf(
  command: Command,
  field: string,
  shape: z.infer<typeof outline>,
  required: boolean,
): SlashField {
  const slot = command.slots[field];
  const reader = slot === undefined ? undefined : nameOfReader.get(slot.read);
  const question = required ? questionFor(command, field) : undefined;
  const base = {
    field,
    option: slashName(field),
    required,
    reader,
    slot,
    description: described(question ?? purpose(command, field, reader)),
  };
  const listed = closed[`${command.name}.${field}`] ?? shape.enum;
  if (listed !== undefined && listed.length <= MOST_CHOICES && listed.every(isWord)) {
    const choices = listed.map((value) => ({ name: value.slice(0, 100), value }));
    return { ...base, kind: "choice", choices };
  }
  if (shape.type === "boolean" || shape.const === true) {
    return { ...base, kind: "boolean", onlyTrue: shape.const === true };
  }
  if (isCounted(shape.type) && (reader === "count" || reader === "number" || reader === "push")) {
    return { ...base, kind: shape.type, least: bound(shape.minimum), most: bound(shape.maximum) };
  }
  const longest = Math.min(shape.maxLength ?? LONGEST, LONGEST);
  if (slot?.asTyped === true) return { ...base, kind: "words", longest };
  return { ...base, kind: "phrase", longest: 200 };
}

/** What an option is for, and behind it what it takes; one of the two where one is enough. */
function purpose({ name }: Command, field: string, reader: ReaderName | undefined): string {
  const words = fieldWords[`${name}.${field}`];
  if (reader === undefined) return words ?? "any words";
  if (words === undefined) return slashHints[reader];
  return reader === "text" || reader === "push" ? words : `${words}: ${slashHints[reader]}`;
}

const isWord = (value: unknown): value is string =>
  typeof value === "string" && value !== "" && value.length <= 100;

const isCounted = (type: string | undefined): type is "integer" | "number" =>
  type === "integer" || type === "number";

const bound = (value: number | undefined): number | undefined =>
  value === undefined || Math.abs(value) > ANY ? undefined : value;

/** The question the command itself asks when a field is missing. */
function questionFor({ fields }: Command, field: string): string | undefined {
  const parsed = fields.safeParse({});
  const issue = parsed.error?.issues.find(({ path }) => path[0] === field);
  return issue === undefined || /^Invalid /.test(issue.message) ? undefined : issue.message;
}
