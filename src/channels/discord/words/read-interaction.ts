import type { Command } from "../../../commands/define-command.ts";
import { callsForAid } from "../../../conversation/calls-for-aid.ts";
import type { Listening } from "../../../language/reader.ts";
import { asTyped, toWords, type Words } from "../../../language/words.ts";
import { type Reply, refuse } from "../../../reply/reply.ts";
import { cleanIncoming } from "./clean-incoming.ts";
import { nearestNames } from "./nearest-names.ts";
import { type SlashField, slashFields } from "./slash-fields.ts";
import { slashHints } from "./slash-hints.ts";
import { SAY, slashPlaces } from "./slash-layout.ts";

/** An option as the gateway sends it, and as discord.js hands it on. */
export type SlashOption = {
  readonly name: string;
  readonly value?: string | number | boolean | undefined;
  readonly options?: readonly SlashOption[] | undefined;
  readonly focused?: boolean | undefined;
};

export type SlashData = {
  readonly name: string;
  readonly options?: readonly SlashOption[] | undefined;
};

export type SlashRead =
  | { readonly command: string; readonly fields: Readonly<Record<string, unknown>> }
  | { readonly text: string }
  | { readonly refusal: Reply };

/** The command a slash command stands for, with its options; undefined for one we do not have. */
export function slashCommandOf(
  { name, options = [] }: SlashData,
  commands: readonly Command[],
): { readonly command: Command; readonly options: readonly SlashOption[] } | undefined {
  const places = slashPlaces(commands).filter((place) => place.name === name);
  const alone = places.find(({ sub }) => sub === undefined);
  if (alone !== undefined) return { command: alone.command, options };
  const [inner] = options;
  const place = places.find(({ sub }) => sub === inner?.name);
  return place === undefined
    ? undefined
    : { command: place.command, options: inner?.options ?? [] };
}

/**
 * A slash command as the conversation takes it: the command's name and its raw fields, just as the
 * sentence that says the same would give them. `/say` is that sentence itself. What an option's
 * reader cannot read is refused with what was read. Words of an emergency go before everything.
 */
export function readInteraction(
  data: SlashData,
  commands: readonly Command[],
  listening: Listening,
): SlashRead {
  if (data.name === SAY) return cleanIncoming(String(data.options?.[0]?.value ?? ""));
  const meant = slashCommandOf(data, commands);
  if (meant === undefined) {
    return {
      refusal: refuse(
        "not-understood",
        "I do not have that command any more. Say it in words, or say help.",
      ),
    };
  }
  const { command, options } = meant;
  const isTyped = (name: string): boolean =>
    slashFields(command).some(
      ({ option, kind }) => option === name && (kind === "phrase" || kind === "words"),
    );
  const emergency = options.find(({ name, value }) => isTyped(name) && isEmergency(value));
  if (emergency !== undefined) return cleanIncoming(String(emergency.value));
  const fields: Record<string, unknown> = {};
  for (const { name, value } of options) {
    const field = slashFields(command).find(({ option }) => option === name);
    if (field === undefined || value === undefined) continue;
    const read = readOption(field, value, listening);
    if ("refusal" in read) return read;
    if (read.value !== undefined) fields[field.field] = read.value;
  }
  return { command: command.name, fields };
}

const isEmergency = (value: SlashOption["value"]): boolean =>
  typeof value === "string" && callsForAid(value);

type Read = { readonly value: unknown } | { readonly refusal: Reply };

function readOption(
  field: SlashField,
  value: string | number | boolean,
  listening: Listening,
): Read {
  switch (field.kind) {
    case "boolean":
      if (typeof value !== "boolean") return unread(field, String(value), listening);
      return { value: field.onlyTrue === true && !value ? undefined : value };
    case "integer":
    case "number":
      return typeof value === "number" && Number.isFinite(value)
        ? { value }
        : unread(field, String(value), listening);
    case "choice":
      return field.choices?.some((choice) => choice.value === value) === true
        ? { value }
        : unread(field, String(value), listening);
    case "phrase":
    case "words":
      return readWords(field, String(value), listening);
  }
}

/** Words that may stand around a value and mean nothing, as in a sentence. */
const filler: ReadonlySet<string> = new Set(["the", "my", "our", "some", "please", "of"]);

function readWords(field: SlashField, typed: string, listening: Listening): Read {
  const heard = cleanIncoming(typed);
  if ("refusal" in heard) return heard;
  const sentence = toWords(heard.text);
  const { words } = sentence;
  const { slot } = field;
  if (words.length === 0 || slot === undefined) return unread(field, heard.text, listening);
  if (slot.asTyped) {
    const whole = slot.read(words, 0, listening).some(({ next }) => next === words.length);
    return whole ? { value: sentence.typed } : unread(field, heard.text, listening);
  }
  for (let from = 0; from < words.length; from += 1) {
    const reading = slot
      .read(words, from, listening)
      .find(({ next }) => words.slice(next).every((word) => filler.has(word)));
    if (reading !== undefined) return { value: reading.value };
    if (!filler.has(words[from] ?? "")) break;
  }
  return unread(field, heard.text, listening, begun(field, sentence, listening));
}

/** What of it can be read from the start, to say what the trouble is with the rest. */
function begun(
  { slot }: SlashField,
  sentence: Words,
  listening: Listening,
): readonly [string, string] | undefined {
  const { words } = sentence;
  const reading = slot?.read(words, 0, listening)[0];
  if (reading === undefined || reading.next >= words.length) return undefined;
  return [asTyped(sentence, 0, reading.next), asTyped(sentence, reading.next, words.length)];
}

const SHOWN = 60;
const short = (text: string): string =>
  text.length <= SHOWN ? text : `${text.slice(0, SHOWN - 1).toWellFormed()}…`;

function unread(
  field: SlashField,
  typed: string,
  listening: Listening,
  parts?: readonly [string, string],
): { readonly refusal: Reply } {
  const { option, reader } = field;
  const hint = reader === undefined ? "one of the choices" : slashHints[reader];
  const lines = [
    ...(parts === undefined
      ? []
      : [`"${short(parts[0])}" I can read; "${short(parts[1])}" behind it I cannot.`]),
    ...knownNames(field, typed, listening),
  ];
  return {
    refusal: refuse("unreadable-option", `I read "${short(typed)}" for ${option}. Give ${hint}.`, {
      say: `I cannot read the ${option}.`,
      lines,
      facts: { field: field.field, read: short(typed) },
    }),
  };
}

/** For a name: the nearest one, and what there is to choose from. */
function knownNames(
  { reader }: SlashField,
  typed: string,
  { names }: Listening,
): readonly string[] {
  if (reader !== "bottle" && reader !== "sheet" && reader !== "tank") return [];
  const all = [...names[reader].keys()].map((name) => ({ name, value: name }));
  if (all.length === 0) return [`This bench has no ${reader} yet.`];
  const [near] = nearestNames(all, typed);
  return [
    ...(near === undefined ? [] : [`Nearest: ${near.name}.`]),
    `Here: ${all
      .slice(0, 8)
      .map(({ name }) => name)
      .join(", ")}.`,
  ];
}
