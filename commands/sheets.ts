import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { sheetLines } from "../src/commands/sheet-text.ts";
import { aboutSheet, allSheets, sheetById } from "../src/commands/sheets.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const sheetsCommand = defineCommand({
  name: "sheets",
  summary: "The sheets I know, or one of them line by line.",
  topic: "sheet",
  sentences: [
    "[show|list|what|which] [all] sheets [do you (know|have)]",
    "(show|read) [me] [the] {sheet} [sheet]",
    "(show|read) [me] [the] sheet [called] {sheet}",
    "[show] [the] sheet",
  ],
  examples: ["sheets", "show saltmarsh demo"],
  fields: z.object({ sheet: z.string().optional() }),
  changes: false,
  values: {
    sheets: "one entry a sheet: id, name, process, baths, invented",
    in_use: "id of the sheet in use, or null",
    sheet: "name of the one shown",
  },
  run({ bench }, { sheet: id }) {
    if (id !== undefined) {
      const sheet = sheetById(bench, id);
      if (sheet === undefined)
        return refuse("no-such-sheet", "I have no sheet of that name. Say sheets.");
      return answer({
        title: `Sheet ${sheet.name}, ${sheet.process}${sheet.invented ? ", INVENTED figures" : ""}`,
        lines: sheetLines(sheet),
        say: `Sheet ${sheet.name}: ${sheet.baths.length} baths.`,
        facts: { sheet: sheet.name, in_use: bench.sheetInUse ?? null },
        cautions: aboutSheet(sheet, true),
      });
    }
    const all = allSheets(bench);
    return answer({
      title: `${all.length} sheets`,
      lines: all.map(
        ({ id: own, name, process, baths, invented }) =>
          `${name}${own === bench.sheetInUse ? " (in use)" : ""}: ${process}, ${baths.map((bath) => bath.name).join(", ")}${invented ? "; INVENTED, for trying out" : ""}`,
      ),
      say: `${all.length} sheets: ${all
        .slice(0, 3)
        .map(({ name }) => name)
        .join(", ")}.`,
      facts: {
        sheets: all.map(({ id: own, name, process, baths, invented }) => ({
          id: own,
          name,
          process,
          baths: baths.map((bath) => bath.name),
          invented,
        })),
        in_use: bench.sheetInUse ?? null,
      },
    });
  },
});
