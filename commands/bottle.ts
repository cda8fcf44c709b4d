import { z } from "zod";
import { askFor, confirm, defineCommand } from "../src/commands/define-command.ts";
import { labelLines } from "../src/commands/label-text.ts";
import { bathOn, sheetFor } from "../src/commands/sheets.ts";
import { bottleMarks, bottleNames } from "../src/data/bottle-names.ts";
import type { Bottle } from "../src/domain/chemistry/bottle.ts";
import { freeName, soundsLike } from "../src/domain/chemistry/name-bottle.ts";
import { isDeveloper, isWater } from "../src/domain/process/sheet.ts";
import { type Bench, takeId } from "../src/domain/session/bench.ts";
import { dateOf, daysBetween, showAge, showDate } from "../src/domain/timing/clock-text.ts";
import { millilitres, units } from "../src/domain/units/quantity.ts";
import { showVolume, showVolumeFor } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const bottleCommand = defineCommand({
  name: "bottle",
  summary: "Put a solution in a bottle: it gets a spoken name, a mark, a date and a label.",
  topic: "bottle",
  sentences: [
    "bottle [up] [a] {solution} <[of] {volume} / (mixed|made) [on] {mixed} / {mixed} / (called|named|as) {name} / with {used} (rolls|units) [done|on it|used]>",
    "bottle [up] [a] {volume} [of] {solution} <(mixed|made) [on] {mixed} / {mixed} / (called|named|as) {name} / with {used} (rolls|units) [done|on it|used]>",
    "(new|add|another) bottle [of] [{solution}] <[of] {volume} / (mixed|made) [on] {mixed} / (called|named) {name}>",
    "bottle (it|this) <(called|named|as) {name}>",
    "bottle",
  ],
  slots: { mixed: "pastDate", name: "newName", used: "count", sure: "yes" },
  examples: ["bottle developer 1 quart mixed yesterday", "bottle 1 litre of blix called Walnut"],
  fields: z.object({
    solution: z.string("What is in it: developer, blix, stabilizer?"),
    volume: z
      .number("How much is in it, with its unit?")
      .min(1, "A bottle holds more than that. Say its volume, like 1 litre.")
      .max(25_000, "That is no bottle for a bench. Say its volume, like 1 litre.")
      .transform(millilitres),
    mixed: z.string("When was it mixed: today, yesterday, or a date?"),
    name: z.string().max(20, "Give it a short name of one word, easy to say.").optional(),
    used: z
      .number()
      .min(0, "Film done cannot be below zero. Say how many rolls it has done.")
      .max(500, "No bottle does 500 rolls. Say how many it has done.")
      .default(0),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    bottle: "its spoken name",
    id: "its id",
    mark: "the shape to draw on it",
    bath: "what is in it",
    volume_ml: "volume, mL",
    mixed_on: "ISO date",
    age_days: "age, days",
    units: "film done, units of 80 sq in",
    label: "label text, one entry a line",
  },
  run({ bench, now, who }, wanted) {
    const today = dateOf(now, bench.zone);
    const { solution, volume, mixed, used } = wanted;
    if (isWater(solution)) {
      return refuse(
        "water",
        "Water needs no bottle. Bottle developer, blix, bleach, fixer or stabilizer.",
      );
    }
    const age = daysBetween(mixed, today);
    if (age < 0) {
      return refuse(
        "future-date",
        `${showDate(mixed)} lies ahead. Say when it was mixed, like yesterday.`,
        {
          say: "That day lies ahead. When was it mixed?",
        },
      );
    }
    if (age > 3650) {
      return refuse(
        "too-old",
        `${showDate(mixed)} is more than ten years ago. Check the year and say the date again.`,
        {
          say: "That is over ten years ago. Check the year.",
        },
      );
    }
    const names = Object.values(bench.bottles).map((bottle) => bottle.name);
    const name = wanted.name === undefined ? freeName(bottleNames, names) : tidy(wanted.name);
    if (name === undefined) {
      return askFor("bottle", wanted, "name", "All my names are taken. What shall I call it?");
    }
    const alike = names.find((other) => soundsLike(other, name));
    if (alike !== undefined) {
      return refuse(
        "sounds-alike",
        `${name} sounds like ${alike}, which this bench has had. Give it another name.`,
        {
          say: `${name} sounds like ${alike}. Another name?`,
          facts: { alike },
        },
      );
    }
    if (/\b(cola|soda|beer|milk|juice|lemonade|drink)\b/i.test(name)) {
      return refuse(
        "drink-name",
        "Never a drink bottle or a drink's name: someone may drink it. Give it another name.",
        {
          say: "Never a drink's name. Another one?",
        },
      );
    }
    if (age > 365 && wanted.sure === undefined) {
      return confirm("bottle", wanted, "sure", `Mixed on ${showDate(mixed)}, ${age} days ago?`);
    }
    if (wanted.sure === false) return answer({ title: "Not stored.", say: "Not stored." });

    const { id, bench: counted } = takeId(bench, "bottle-");
    const bottle: Bottle = {
      id,
      name,
      mark: freeMark(bench, solution),
      bath: solution,
      sheet: sheetOf(bench, solution),
      volume,
      mixedOn: mixed,
      by: who,
      used: units(used),
    };
    const label = labelLines(bottle);
    return {
      bench: { ...counted, bottles: { ...counted.bottles, [id]: bottle } },
      reply: answer({
        title: `${name}, the ${bottle.mark}: ${solution}, ${showVolumeFor(volume, bench.country)}, mixed ${showDate(mixed)}`,
        lines: [
          `${showAge(age)}${used > 0 ? `, ${used} units done` : ""}. Copy onto the label:`,
          ...label.map((line) => `| ${line}`),
        ],
        say: `${name}: ${solution}, ${showVolume(volume)}. Draw a ${bottle.mark} on it.`,
        figures: {
          volume_ml: { value: volume, origin: { kind: "told" } },
          age_days: { value: age, origin: { kind: "computed", source: "mixing date until today" } },
          units: { value: used, origin: { kind: "told" } },
        },
        facts: { bottle: name, id, mark: bottle.mark, bath: solution, mixed_on: mixed, label },
        cautions: ["Airtight and full to the neck; never a drink bottle; out of children's reach."],
      }),
    };
  },
});

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
