import type { APIApplicationCommandOptionChoice } from "discord-api-types/v10";
import { type Command, topics } from "../../../commands/define-command.ts";
import { formulas } from "../../../data/formulas.ts";
import { rescues } from "../../../data/rescues.ts";
import { timeTables } from "../../../data/time-temperature.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import {
  bathNames,
  bottleNames,
  openTankNames,
  reminderNames,
  rollNamesOf,
  sheetNames,
  tankNames,
  thermometerNames,
} from "./bench-names.ts";
import { cleanIncoming } from "./clean-incoming.ts";
import { type Named, nearestNames } from "./nearest-names.ts";
import { type SlashField, slashFields } from "./slash-fields.ts";

type Choice = APIApplicationCommandOptionChoice<string>;
type Source = (bench: Bench, commands: readonly Command[]) => readonly Named[];

const MOST = 25;
const LONGEST = 100;

const named = (name: string): Named => ({ name, value: name });

/** Free words that mean something the bench has a list of. */
const byField: Readonly<Record<string, Source>> = {
  "temperature.thermometer": thermometerNames,
  "thermometer.thermometer": thermometerNames,
  "thermometer.other": thermometerNames,
  "thermometer.gone": thermometerNames,
  "recall.thermometer": thermometerNames,
  "suspect.thermometer": thermometerNames,
  "snooze.which": reminderNames,
  "reminder done.which": reminderNames,
  "forget reminder.which": reminderNames,
  "times.table": () => timeTables.map(({ name }) => named(name)),
  "trouble.what": () => rescues.map(({ word }) => named(word)),
  "help.what": (_, commands) =>
    [...new Set([...topics, ...commands.map(({ name }) => name)])].map(named),
};

const byReader: Partial<Record<NonNullable<SlashField["reader"]>, Source>> = {
  bottle: bottleNames,
  held: bottleNames,
  inJug: (bench) => [...bathNames(bench), ...bottleNames(bench)],
  sheet: sheetNames,
  tank: openTankNames,
  newTank: tankNames,
  bath: bathNames,
  solution: bathNames,
  rolls: rollNamesOf,
  formula: () =>
    formulas.map(({ id, name, aliases }) => ({ name, value: name, also: [id, ...aliases] })),
};

function sourceOf({ name }: Command, { field, reader }: SlashField): Source | undefined {
  return byField[`${name}.${field}`] ?? (reader === undefined ? undefined : byReader[reader]);
}

/** Can an option be completed from what the bench has? */
export const completes = (command: Command, field: SlashField): boolean =>
  sourceOf(command, field) !== undefined;

/**
 * What may be meant by what was typed so far into an option: at most 25, the likeliest first. What
 * is chosen is read like what is typed. Never throws; an option that is none has no choices.
 */
export function completions(
  bench: Bench,
  command: Command,
  option: string,
  typed: string,
  commands: readonly Command[] = [],
): readonly Choice[] {
  const field = slashFields(command).find((one) => one.option === option);
  const source = field === undefined ? undefined : sourceOf(command, field);
  const heard = cleanIncoming(typed);
  if (source === undefined || "refusal" in heard) return [];
  const names = nearestNames(source(bench, commands), heard.text)
    .filter(({ name, value }) => name.trim() !== "" && value !== "" && value.length <= LONGEST)
    .map(({ name, value }) => ({
      name: name.toWellFormed().slice(0, LONGEST).toWellFormed(),
      value,
    }));
  return [...new Map(names.map((one) => [one.value, one])).values()].slice(0, MOST);
}
