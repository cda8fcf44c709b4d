import { z } from "zod";
import { askFor, defineCommand, toJson } from "../src/commands/define-command.ts";
import { filmLoad, type SaidFilm, settleFilm } from "../src/commands/film-load.ts";
import { rollJson, rollJsonKeys, rollLine } from "../src/commands/roll-text.ts";
import { textField, traitsField, withTraits } from "../src/commands/traits.ts";
import { areaOrigin, type FilmFormat, filmUnits, showFilm } from "../src/domain/film/load.ts";
import { checkRollName, explainName, spreadName } from "../src/domain/film/name-roll.ts";
import { callRolls, type Roll, shortRoll } from "../src/domain/film/roll.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { showUnits } from "../src/domain/units/show.ts";
import { answer, type Option, refuse } from "../src/reply/reply.ts";

/** More at once is a slip of the tongue. */
const MOST = 40;

const item = z.object({
  film: filmLoad(MOST, `I take ${MOST} rolls at once. Add them in parts.`),
  traits: traitsField,
});
type Item = z.output<typeof item>;

export const addCommand = defineCommand({
  name: "add",
  summary: "Put rolls on the list of film that waits: format, marking, push, rating, name.",
  topic: "film",
  sentences: [
    "(add|new|put down|i have|list) [a] [new] {rolls} [to [the] (list|backlog)] [(of|with) [the] (film|stock) {stock}] [(note|remark|comment) {note}]",
    "(add|new) [a|some|another] (roll|rolls|film)",
    "add [something]",
  ],
  slots: { rolls: "newRolls", stock: "text", note: "text" },
  examples: [
    "add two rolls of 120 C-41 pushed one stop called beach",
    "add a 135-36 marked C-41 rated 400 important",
  ],
  fields: z.object({
    rolls: z.array(item, "Which film? Say it like two rolls of 120 marked C-41.").min(1),
    stock: textField.optional(),
    note: textField.optional(),
  }),
  changes: true,
  values: {
    rolls: `one entry a roll: ${rollJsonKeys}`,
    count: "rolls added",
    units: "film added, units of 80 sq in",
    waiting: "rolls that wait now",
  },
  run({ bench, now, who }, wanted) {
    const { rolls: items, stock, note } = wanted;
    const open = items.findIndex(({ film }) => film.some(({ format }) => format === undefined));
    const vague = items[open];
    if (vague !== undefined) {
      const { ask, options } = whichFormat(vague.film);
      const choices = options.map(({ word, value }) => ({
        word,
        value:
          toJson({ rolls: items.map((one, at) => (at === open ? { ...one, film: value } : one)) })
            .rolls ?? [],
      }));
      return askFor("add", { stock, note }, "rolls", ask, choices);
    }
    const settled = items.map(({ film, traits }) => ({ traits, said: settleFilm(film) }));
    const assumed = settled.flatMap(({ said }) => ("film" in said ? said.assumed : []));
    const existing = Object.values(bench.rolls);
    let number = existing.reduce((most, roll) => Math.max(most, roll.number), 0);
    let counted = bench.nextId;
    const added: Roll[] = [];
    for (const { traits, said } of settled) {
      const formats = "film" in said ? said.film.flatMap(spread) : [];
      if (traits.name !== undefined) {
        const trouble = checkRollName(traits.name, [...existing, ...added]);
        if (trouble !== undefined) {
          return refuse(trouble.kind, explainName(trouble), {
            say: "That name is taken or sounds alike. Give it another name.",
            facts: { name: trouble.name },
          });
        }
      }
      const names = spreadName(traits.name, formats.length);
      for (const [at, format] of formats.entries()) {
        const name = names[at];
        number += 1;
        const blank: Roll = {
          id: `roll-${counted}`,
          number,
          format,
          push: 0,
          important: false,
          doubtful: false,
          addedOn: dateOf(now, bench.zone),
          by: who,
          ...(name === undefined ? {} : { name }),
          ...(stock === undefined ? {} : { stock }),
          ...(note === undefined ? {} : { note }),
        };
        counted += 1;
        added.push(withTraits(blank, traits));
      }
    }
    if (added.length > MOST) {
      return refuse("too-many", `I take ${MOST} rolls at once. Add them in parts.`);
    }
    const film = added.map(({ format }) => ({ format, count: 1 }));
    const after: Bench = {
      ...bench,
      nextId: counted,
      rolls: { ...bench.rolls, ...Object.fromEntries(added.map((roll) => [roll.id, roll])) },
    };
    const unmarked = added.filter(({ marked }) => marked === undefined);
    const waiting = existing.filter(
      (one) => one.doneIn === undefined && one.droppedOn === undefined,
    );
    const load = filmUnits(film);
    return {
      bench: after,
      reply: answer({
        title: `Added ${callRolls(added)}, ${showUnits(load)}.`,
        lines: [
          ...added.map(rollLine),
          ...assumed.map((one) => `${one.charAt(0).toUpperCase()}${one.slice(1)}.`),
          ...(unmarked.length === 0
            ? []
            : [
                `Not stated: what stands on ${callRolls(unmarked)}. Say mark ${shortRoll(unmarked[0] ?? { number: 0, format: "120" }).toLowerCase()} C-41, E-6, ECN-2 or black and white; without it no roll goes into a tank.`,
              ]),
        ],
        say: `Added ${added.length === 1 ? "one roll" : `${added.length} rolls`}${unmarked.length === 0 ? "" : ". What stands on the cassette"}${unmarked.length === 0 ? "." : "?"}`,
        facts: { rolls: added.map(rollJson) },
        figures: {
          count: { value: added.length, origin: { kind: "told" } },
          units: { value: load, origin: areaOrigin(film) },
          waiting: { value: waiting.length + added.length, origin: { kind: "own log" } },
        },
        working: [`${showFilm(film)}: ${showUnits(load)}.`],
      }),
    };
  },
});

const spread = ({ format, count }: { format: FilmFormat; count: number }): readonly FilmFormat[] =>
  Array.from({ length: count }, () => format);

/** A list needs the format: without it nobody knows which reel the film goes on. */
function whichFormat(film: Item["film"]): {
  readonly ask: string;
  readonly options: readonly Option[];
} {
  const sheets = settleFilm(film);
  if ("ask" in sheets) return sheets;
  const formats = ["135-36", "135-24", "120", "220"] as const;
  return {
    ask: "Which format: 135-36, 135-24, 120 or 220?",
    options: formats.map((format) => ({
      word: format,
      value: toJson({ film: film.map((one): SaidFilm[number] => ({ format, ...one })) }).film ?? [],
    })),
  };
}
