import { z } from "zod";
import { agitationCaution, chosenTable } from "../src/commands/chosen-times.ts";
import { askFor, confirm, defineCommand } from "../src/commands/define-command.ts";
import { type TimeTable, timeTables } from "../src/data/time-temperature.ts";
import { showOrigin } from "../src/domain/origin.ts";
import { showCelsius, showDuration } from "../src/domain/units/show.ts";
import { answer, type Json, refuse } from "../src/reply/reply.ts";

const plainWords = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[-,+\s]+/)
    .filter((word) => word !== "");
const unbroken = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, "");

/** The tables whose name holds every word that was said. */
function called(said: string): readonly TimeTable[] {
  const exact = timeTables.filter(({ id, name }) => id === said || name === said);
  if (exact.length > 0) return exact;
  const words = plainWords(said).filter(
    (word) => !["the", "developer", "in", "table", "film"].includes(word),
  );
  const whole = unbroken(said);
  return timeTables.filter(({ name }) => {
    const has = plainWords(name);
    const named = words.every((word) =>
      has.some((one) => one === word || (word.length > 3 && one.startsWith(word))),
    );
    // "d76" and "D 76" are D-76.
    return named || (whole.length > 2 && unbroken(name).startsWith(whole));
  });
}

export const timesCommand = defineCommand({
  name: "times",
  summary: "Published black-and-white times at several temperatures; choose one by name.",
  topic: "sheet",
  sentences: [
    "[show|list|what] [all] (published|developer|developing) times [do you have|do you know]",
    "(show|list) [all] times",
    "[show] [me] [the] times (for|of|in) {table}",
    "(use|take) [the] times (for|of|in|with) {table}",
    "(what are|what|give me|do you have|are there|have you|any) [the] [any] times [do you have] (for|of|in|with) {table}",
    "[developing] times (for|of|in|with) {table}",
    "(forget|drop) [the] chosen times {none}",
    "(forget|drop) [the] {none} times",
  ],
  slots: { table: "text", none: "chosen", sure: "yes" },
  examples: ["published times", "times for D-76"],
  fields: z.object({
    table: z.string().max(200).optional(),
    none: z.literal(true).optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    tables: "every table: id, name, agitation, trusted, chosen",
    table: "id of the table",
    agitation: "rotary, inversion or any: what its times are for",
    rows: "its rows: temp_c, time_s",
    chosen: "true when the black-and-white developer goes by it",
  },
  run({ bench }, { table: said, none, sure }) {
    if (none === true) {
      const { timeTable: _, ...rest } = bench;
      return {
        bench: rest,
        reply: answer({
          title: "No table of times is chosen any more.",
          say: "No table of times is chosen.",
          facts: { chosen: false },
        }),
      };
    }
    const own = chosenTable(bench);
    if (said === undefined) {
      const tables: Json[] = timeTables.map(({ id, name, agitation, trusted }) => ({
        id,
        name,
        agitation,
        trusted,
        chosen: id === own?.id,
      }));
      return answer({
        title: `${timeTables.length} tables of times`,
        lines: [
          ...timeTables.map(
            ({ id, name, agitation, trusted }) =>
              `${name}; ${agitation} agitation${trusted ? "" : "; from memory"}${id === own?.id ? " (chosen)" : ""}`,
          ),
          "Say times for and words of its name. Your sheet's own times outrank them.",
        ],
        say: `${timeTables.length} tables on the screen. Say times for its name.`,
        facts: { tables },
      });
    }
    const found = called(said);
    const [table] = found;
    if (table === undefined) {
      return refuse("no-such-table", `I have no times called ${said.slice(0, 40)}. These I have:`, {
        say: "No such times. Those I have are on the screen.",
        lines: [
          ...timeTables.map(({ name }) => name),
          "Say times for and words of a name. For a maker's developer its own sheet decides: learn a sheet.",
        ],
      });
    }
    if (found.length > 1) {
      const options = found.map(({ id, name }) => ({ word: name, value: id }));
      return askFor(
        "times",
        {},
        "table",
        `Which of ${found.length}? Its number will do.`,
        options,
        {
          lines: found.map(({ name }, index) => `${index + 1}. ${name}`),
        },
      );
    }
    const { id, name, agitation, law, trusted, process } = table;
    const rows: Json[] = law.rows.map(({ at, time }) => ({ temp_c: at, time_s: time }));
    const parts = {
      lines: law.rows.map(({ at, time }) => `${showCelsius(at)}  ${showDuration(time)}`),
      figures: { rows: { value: rows, origin: law.origin } },
      facts: { table: id, agitation, chosen: id === own?.id || sure === true },
      cautions: [
        ...agitationCaution(table),
        ...(trusted ? [] : ["From memory: check it against your paper."]),
      ],
      working: [
        `Times: ${showOrigin(law.origin)}.`,
        "Between two rows the time's logarithm is straight.",
      ],
    };
    if (process !== "black-and-white" || !trusted || id === own?.id || sure === false) {
      return answer({ ...parts, title: name, say: "The times are on the screen." });
    }
    if (sure === true) {
      return {
        bench: { ...bench, timeTable: id },
        reply: answer({
          ...parts,
          title: `Black-and-white developer goes by: ${name}.`,
          say: "Chosen. Say use sheet black and white.",
        }),
      };
    }
    return confirm(
      "times",
      { table: id },
      "sure",
      `${name}: use it where a black-and-white sheet has no developer time?`,
      { ...parts, say: "Use it for the black-and-white developer?" },
    );
  },
});
