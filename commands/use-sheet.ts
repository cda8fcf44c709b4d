import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { aboutSheet, sheetById } from "../src/commands/sheets.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const useSheetCommand = defineCommand({
  name: "use sheet",
  summary: "Work by this sheet from now on.",
  topic: "sheet",
  sentences: [
    "(use|follow|work by|switch to) [the] [sheet] {sheet} [sheet]",
    "use (no|the shipped) (sheet|sheets)",
  ],
  examples: ["use sheet saltmarsh demo", "use no sheet"],
  fields: z.object({ sheet: z.string().optional() }),
  changes: true,
  values: { sheet: "name of the sheet in use, or null" },
  run({ bench }, { sheet: id }) {
    if (id === undefined) {
      const { sheetInUse: _, ...rest } = bench;
      return {
        bench: rest,
        reply: answer({
          title: "No sheet in use: the shipped ones answer and say so.",
          say: "No sheet in use now.",
          facts: { sheet: null },
        }),
      };
    }
    const sheet = sheetById(bench, id);
    if (sheet === undefined)
      return refuse("no-such-sheet", "I have no sheet of that name. Say sheets.");
    return {
      bench: { ...bench, sheetInUse: id },
      reply: answer({
        title: `Working by ${sheet.name}.`,
        say: `Working by ${sheet.name}${sheet.invented ? ", invented figures" : ""}.`,
        facts: { sheet: sheet.name },
        cautions: aboutSheet(sheet, true),
      }),
    };
  },
});
