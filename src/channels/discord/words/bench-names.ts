import { liveReminders } from "../../../commands/find-reminder.ts";
import { shippedSheets } from "../../../data/sheets.ts";
import { isWaiting, type Roll } from "../../../domain/film/roll.ts";
import { type Bench, liveBottles } from "../../../domain/session/bench.ts";
import { liveRuns } from "../../../domain/session/find-run.ts";
import { readers } from "../../../language/readers/all.ts";
import { toWords } from "../../../language/words.ts";
import type { Named } from "./nearest-names.ts";

/** The names of a bench, each with the words the reader of its slot takes for it. */

const itself = (name: string): Named => ({ name, value: name });

export const bottleNames = (bench: Bench): readonly Named[] =>
  liveBottles(bench).map(({ name, bath, mark }) => ({
    name: `${name}: ${bath}, the ${mark}`,
    value: name,
    also: [bath],
  }));

export const sheetNames = (bench: Bench): readonly Named[] =>
  [...Object.values(bench.sheets), ...shippedSheets].map(({ name, called }) => ({
    name,
    value: name,
    also: called,
  }));

export const openTankNames = (bench: Bench): readonly Named[] =>
  liveRuns(bench).map(({ tank, title }) => ({ name: `${tank}: ${title}`, value: tank }));

export const tankNames = (bench: Bench): readonly Named[] => {
  const known = [
    ...Object.values(bench.tanks).map(({ name }) => name),
    ...Object.values(bench.runs).map(({ tank }) => tank),
  ];
  return [...new Map(known.map((name) => [name.toLowerCase(), itself(name)])).values()];
};

/** Baths of the bench's sheets and bottles, then of the shipped ones, as far as chat knows them. */
export const bathNames = (bench: Bench): readonly Named[] => {
  const all = [
    ...Object.values(bench.sheets).flatMap(({ baths }) => baths.map(({ kind }) => kind)),
    ...liveBottles(bench).map(({ bath }) => bath),
    ...shippedSheets.flatMap(({ baths }) => baths.map(({ kind }) => kind)),
  ];
  return [...new Set(all)].filter(isBath).map(itself);
};

const unheard = {
  now: 0,
  zone: "UTC",
  names: { bottle: new Map(), sheet: new Map(), tank: new Map() },
};

function isBath(name: string): boolean {
  const { words } = toWords(name);
  const listening = unheard as unknown as Parameters<typeof readers.bath>[2];
  return readers.bath(words, 0, listening).some(({ next }) => next === words.length);
}

const rollWords = ({ number, name, format, marked, stock }: Roll): string =>
  [`roll ${number}`, name, format, marked, stock].filter((part) => part !== undefined).join(", ");

/** Those that wait first, then the rest, the newest in front. */
export const rollNamesOf = (bench: Bench): readonly Named[] => {
  const rolls = Object.values(bench.rolls);
  const done = rolls.filter((roll) => !isWaiting(roll)).toReversed();
  return [...rolls.filter(isWaiting), ...done].map((roll) => ({
    name: rollWords(roll),
    value: `roll ${roll.number}`,
    also: roll.name === undefined ? [] : [roll.name],
  }));
};

export const thermometerNames = (bench: Bench): readonly Named[] =>
  Object.values(bench.thermometers).map(({ name }) => itself(name));

/** By id: a reminder that was picked is that one, whatever it says. */
export const reminderNames = (bench: Bench): readonly Named[] =>
  liveReminders(bench).map(({ id, text }) => ({ name: text, value: id }));
