import { sessionOf } from "../../src/commands/session-of.ts";
import { sessionLines } from "../../src/commands/session-text.ts";
import { shippedSheets } from "../../src/data/sheets.ts";
import type { SharedSession } from "../../src/domain/record/session-schema.ts";
import type { Bench } from "../../src/domain/session/bench.ts";
import { countFilm } from "../../src/domain/session/count-film.ts";
import type { Run } from "../../src/domain/session/run.ts";
import { millilitres, seconds, units } from "../../src/domain/units/quantity.ts";
import { livedRun } from "./lived-run.ts";
import { at, benchWith, runOf, stagesOf } from "./runs.ts";

/** INVENTED: a whole run by the demo sheet, with something of everything a picture shows. */
export function benchSession(sheetId = "demo"): {
  readonly bench: Bench;
  readonly run: Run;
  readonly session: SharedSession;
  readonly words: readonly string[];
} {
  const sheet = shippedSheets.find(({ id }) => id === sheetId);
  const names = ["Acorn", "Banjo", "Cactus"];
  const marks = ["square", "ring", "crescent"];
  const plan = runOf(stagesOf(sheet?.baths ?? []), {
    title: sheet?.name ?? "",
    sheet: sheetId,
    process: sheet?.process ?? "",
    film: [
      { format: "120", count: 2 },
      { format: "135-36", count: 1 },
    ],
    countConfirmed: true,
  });
  const bottled: Run = {
    ...plan,
    stages: plan.stages.map((stage, index) => {
      const name = stage.kind === "wash" ? undefined : names[index % 3];
      return name === undefined ? stage : { ...stage, bottle: name };
    }),
  };
  const lived = livedRun(bottled, {
    off: { 0: 9, 2: -25 },
    read: [
      { stage: 0, into: -12, temperature: 38.3 },
      { stage: 0, into: 30, temperature: 38.15 },
      { stage: 0, into: 120, temperature: 37.9 },
      { stage: 1, into: 40, temperature: 41.2 },
      { stage: 3, into: 20, temperature: 22.5 },
    ],
  });
  const run: Run = {
    ...lived,
    stages: lived.stages.map((stage, index) =>
      index === 1
        ? { ...stage, beatsSilent: [seconds(60), seconds(100)], beatsLate: [seconds(260)] }
        : index === 2
          ? { ...stage, plusMinus: seconds(10) }
          : stage,
    ),
    firstLook: { at: at(50_000), edgeNumbers: "crisp", clearParts: "clear" },
  };
  const bench: Bench = {
    ...benchWith(run),
    bottles: Object.fromEntries(
      names.map((name, index) => [
        name,
        {
          id: name,
          name,
          mark: marks[index] ?? "square",
          bath: ["developer", "blix", "stabilizer"][index] ?? "",
          volume: millilitres(1000),
          mixedOn: "2026-11-20",
          by: "Ines",
          used: units(3),
        },
      ]),
    ),
  };
  const counted = countFilm(bench, run.id);
  const done = counted.runs[run.id] ?? run;
  const { private: _, ...session } = sessionOf(counted, done);
  return { bench: counted, run: done, session, words: sessionLines(session) };
}
