import { z } from "zod";
import { bottleMarks, bottleNames } from "../data/bottle-names.ts";
import { capital } from "../domain/capital.ts";
import {
  type Bottle,
  bottleRoles,
  containers,
  type FillLevel,
  fillLevels,
} from "../domain/chemistry/bottle.ts";
import { shareOf } from "../domain/chemistry/fill.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { freeName, soundsLike } from "../domain/chemistry/name-bottle.ts";
import { isDeveloper, isWater } from "../domain/process/sheet.ts";
import { type Bench, takeId } from "../domain/session/bench.ts";
import type { Mixing } from "../domain/session/mixing-walk.ts";
import { dateOf, daysBetween, showDate } from "../domain/timing/clock-text.ts";
import { millilitres, units } from "../domain/units/quantity.ts";
import { showVolumeFor } from "../domain/units/show.ts";
import { answer, type Reply, refuse } from "../reply/reply.ts";
import { earliestDay } from "./assumed-date.ts";
import { ageWords, dueLine, stateFigures } from "./bottle-lines.ts";
import { lookNow } from "./bottle-looks.ts";
import { askFor, confirm, type Handling, type Outcome } from "./define-command.ts";
import { labelLines } from "./label-text.ts";
import { bathOn, sheetFor } from "./sheets.ts";
import { missingIn } from "./walk-words.ts";

/** What is told of a new bottle; a message is the question asked when it is missing. */
export const newBottleFields = z.object({
  solution: z.string("What is in it: developer, blix, stabilizer?"),
  volume: z
    .number("How much is in it, with its unit?")
    .min(1, "A bottle holds more than that. Say its volume, like 1 litre.")
    .max(25_000, "That is no bottle for a bench. Say its volume, like 1 litre.")
    .transform(millilitres),
  mixed: z.string("When was it mixed: today, yesterday, or a date?"),
  /** Its date is not known, but it cannot be older than this. */
  notBefore: z.string().optional(),
  name: z.string().max(20, "Give it a short name of one word, easy to say.").optional(),
  used: z
    .number()
    .min(0, "Film done cannot be below zero. Say how many rolls it has done.")
    .max(500, "No bottle does 500 rolls. Say how many it has done.")
    .default(0),
  role: z.enum(bottleRoles).optional(),
  fill: z.enum(fillLevels).optional(),
  container: z.enum([...containers, "drink"]).optional(),
  /** Who mixed it; missing: who says so. */
  by: z.string().max(30, "Say who mixed it in a word or two.").optional(),
  place: z.string().max(60, "Say the place in a few words, like the cellar.").optional(),
  sure: z.boolean().optional(),
});
export type NewBottle = z.output<typeof newBottleFields>;

export const newBottleValues: Readonly<Record<string, string>> = {
  bottle: "its spoken name",
  id: "its id",
  mark: "the shape to draw on it",
  bath: "what is in it",
  role: "working, concentrate or stock; missing when nothing was said",
  volume_ml: "volume, mL",
  mixed_on: "ISO date: mixed, or for a concentrate opened",
  date_assumed: "true when the date is the earliest plausible one, not a known one",
  by: "who mixed it",
  age_days: "age, days",
  units: "film done, units of 80 sq in",
  fill: "how full it stands; missing when nothing was said",
  due: "last day inside its keeping time, ISO; missing when none is known",
  label: "label text, one entry a line",
  alike: "a name of this bench that sounds like it",
};

/** "Not stored": what `no` to a question leads to. */
const notStored = answer({ title: "Not stored.", say: "Not stored." });

/** Film on a roll was first sold in 1888; anything mixed for it is younger (common knowledge). */
const FIRST_FILM = 1888;

/** Puts a new bottle on the bench: `bottle` for solutions, `open` for concentrates. */
export function putUp(
  command: "bottle" | "open",
  { bench, now, who }: Handling,
  wanted: NewBottle,
): Reply | Outcome {
  const today = dateOf(now, bench.zone);
  const { solution, volume, used } = wanted;
  if (isWater(solution)) {
    return refuse(
      "water",
      "Water needs no bottle. Bottle developer, blix, bleach, fixer or stabilizer.",
    );
  }
  if (wanted.container === "drink") {
    return refuse(
      "drink-bottle",
      "Never a drink bottle: someone may drink from it. Pour it into a chemical bottle, then tell me.",
      { say: "Never a drink bottle. Use a chemical bottle." },
    );
  }
  const date = settleDate(bench, wanted, today);
  if ("ask" in date) return askFor(command, wanted, "notBefore", date.ask, undefined, date.parts);
  const wrongDate = checkDate(date.on, today);
  if (wrongDate !== undefined) return wrongDate;
  const named = nameFor(bench, command, wanted);
  if ("reply" in named) return named.reply;
  const { name } = named;
  const age = daysBetween(date.on, today);
  if (age > 365 && wanted.sure === undefined && date.assumed === undefined) {
    return confirm(command, wanted, "sure", `Mixed on ${showDate(date.on)}, ${age} days ago?`);
  }
  const { mixing } = bench;
  const half = mixing !== undefined && isOfMix(mixing, wanted, date.on === today);
  if (half && wanted.sure === undefined) {
    return confirm(
      command,
      wanted,
      "sure",
      `${capital(mixing.bath)} is half mixed, ${missingIn(mixing)}. Is this another batch of it?`,
      { say: `${capital(mixing.bath)} is half mixed. Another batch?` },
    );
  }
  if (wanted.sure === false) return notStored;

  const { id, bench: counted } = takeId(bench, "bottle-");
  const bottle: Bottle = {
    id,
    name,
    mark: freeMark(bench, solution),
    bath: solution,
    sheet: sheetOf(bench, solution),
    volume,
    mixedOn: date.on,
    by: wanted.by === undefined || /^(me|us|myself)$/i.test(wanted.by) ? who : wanted.by,
    used: units(used),
    ...(wanted.role === undefined || wanted.role === "working" ? {} : { role: wanted.role }),
    ...(wanted.container === undefined ? {} : { container: wanted.container }),
    ...(wanted.place === undefined ? {} : { place: wanted.place }),
    ...(date.assumed === undefined ? {} : { dateAssumed: date.assumed }),
    ...filled(wanted.fill, volume, date.on),
  };
  const look = lookNow(bench, bottle, now);
  const label = labelLines(look);
  const verb = wanted.role === "concentrate" ? "opened" : "mixed";
  return {
    bench: { ...counted, bottles: { ...counted.bottles, [id]: bottle } },
    reply: answer({
      title: `${name}, the ${bottle.mark}: ${solution}${roleWord(wanted.role)}, ${showVolumeFor(volume, bench.country)}, ${verb} ${showDate(date.on)}${date.assumed === undefined ? "" : " (assumed)"}`,
      lines: [
        ...(date.assumed === undefined ? [] : [`Date not known: ${date.assumed}.`]),
        ...dueLine(look),
        `${ageWords(look, today)}${used > 0 ? `, ${used} units done` : ""}. Copy onto the label:`,
        ...label.map((line) => `| ${line}`),
      ],
      say: sayNew(look),
      figures: {
        volume_ml: { value: volume, origin: { kind: "told" } },
        age_days: { value: age, origin: { kind: "computed", source: "mixing date until today" } },
        units: { value: used, origin: { kind: "told" } },
        ...(look.due === undefined ? {} : { due: stateFigures(look).due }),
      },
      facts: {
        bottle: name,
        id,
        mark: bottle.mark,
        bath: solution,
        mixed_on: date.on,
        by: bottle.by,
        date_assumed: date.assumed !== undefined,
        label,
        ...(wanted.role === undefined ? {} : { role: wanted.role }),
        ...(wanted.fill === undefined ? {} : { fill: wanted.fill }),
      },
      cautions: ["Airtight and full to the neck; never a drink bottle; out of children's reach."],
      working: look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`],
    }),
  };
}

/** Said of today and of the bath that stands half mixed in a vessel: most likely that one. */
const isOfMix = ({ bath, kind }: Mixing, { solution, role }: NewBottle, today: boolean): boolean =>
  today && role !== "concentrate" && (solution === bath || solution === kind);

/** Its name, its mark and its last good day, in one breath. */
const sayNew = ({ bottle, due }: BottleLook): string =>
  due === undefined
    ? `${bottle.name}, the ${bottle.mark}: ${bottle.bath}. No limit known.`
    : `${bottle.name}, the ${bottle.mark}: ${bottle.bath}. Good to ${showDate(due)}.`;

const roleWord = (role: NewBottle["role"]): string =>
  role === undefined || role === "working" ? "" : ` ${role}`;

/** Told part full, it has stood so since it was mixed: the cautious reading. */
const filled = (
  fill: FillLevel | undefined,
  volume: Bottle["volume"],
  on: string,
): Partial<Bottle> =>
  fill === undefined || fill === "full"
    ? {}
    : { fills: [{ on, fill }], size: millilitres(volume / shareOf[fill]) };

type Settled =
  | { readonly on: string; readonly assumed: string | undefined }
  | { readonly ask: string; readonly parts: { readonly say: string } };

/** A known date, or the earliest plausible one with how it was found. */
function settleDate(bench: Bench, wanted: NewBottle, today: string): Settled {
  if (wanted.mixed !== "unknown") return { on: wanted.mixed, assumed: undefined };
  if (wanted.notBefore !== undefined && wanted.notBefore !== "unknown") {
    return { on: wanted.notBefore, assumed: "not before this day, you said" };
  }
  const found = earliestDay(bench, wanted.solution);
  if (found !== undefined) return { on: found.on, assumed: found.why };
  if (wanted.notBefore === "unknown") {
    // Nobody knows and nothing was written down: a year back, and a clip test before any film.
    const on = Temporal.PlainDate.from(today).subtract({ years: 1 }).toString();
    return { on, assumed: "nothing tells its age, so a year is taken" };
  }
  return {
    ask: "Then I take the earliest day it can be. It was not mixed before when?",
    parts: { say: "It was not mixed before when?" },
  };
}

function checkDate(on: string, today: string): Reply | undefined {
  const age = daysBetween(on, today);
  if (age < 0) {
    return refuse(
      "future-date",
      `${showDate(on)} lies ahead. Say when it was mixed, like yesterday.`,
      { say: "That day lies ahead. When was it mixed?" },
    );
  }
  if (Temporal.PlainDate.from(on).year < FIRST_FILM) {
    return refuse(
      "before-film",
      `${showDate(on)} is before there was any film. Check the year and say the date again.`,
      { say: "There was no film then. Check the year." },
    );
  }
  if (age > 3650) {
    return refuse(
      "too-old",
      `${showDate(on)} is more than ten years ago. Check the year and say the date again.`,
      { say: "That is over ten years ago. Check the year." },
    );
  }
  return undefined;
}

function nameFor(
  bench: Bench,
  command: string,
  wanted: NewBottle,
): { readonly name: string } | { readonly reply: Reply } {
  const names = Object.values(bench.bottles).map((bottle) => bottle.name);
  const name = wanted.name === undefined ? freeName(bottleNames, names) : tidy(wanted.name);
  if (name === undefined) {
    return {
      reply: askFor(command, wanted, "name", "All my names are taken. What shall I call it?"),
    };
  }
  const alike = names.find((other) => soundsLike(other, name));
  if (alike !== undefined) {
    return {
      reply: refuse(
        "sounds-alike",
        `${name} sounds like ${alike}, which this bench has had. Give it another name.`,
        { say: `${name} sounds like ${alike}. Another name?`, facts: { alike } },
      ),
    };
  }
  if (/\b(cola|soda|beer|milk|juice|lemonade|drink)\b/i.test(name)) {
    return {
      reply: refuse(
        "drink-name",
        "Never a drink bottle or a drink's name: someone may drink it. Give it another name.",
        { say: "Never a drink's name. Another one?" },
      ),
    };
  }
  return { name };
}

const tidy = (name: string): string => name.trim().charAt(0).toUpperCase() + name.trim().slice(1);

/** The sheet in use, when it has such a bath. */
function sheetOf(bench: Bench, solution: string): string | undefined {
  const found = sheetFor(bench, "process");
  if (found === undefined || !found.chosen) return undefined;
  return bathOn(found.sheet, solution) === undefined ? undefined : found.sheet.id;
}

/** A shape no other live bottle carries, from its own side's list; the list goes round when it is used up. */
function freeMark(bench: Bench, solution: string): string {
  const marks = isDeveloper(solution) ? bottleMarks.developer : bottleMarks.other;
  const taken = Object.values(bench.bottles)
    .filter((bottle) => bottle.retiredOn === undefined)
    .map((bottle) => bottle.mark);
  return marks.find((mark) => !taken.includes(mark)) ?? marks[0] ?? "cross";
}
