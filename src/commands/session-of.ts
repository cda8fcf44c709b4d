import type { SessionSummary } from "../domain/record/session-schema.ts";
import { sessionSummary } from "../domain/record/session-summary.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import { sheetById } from "./sheets.ts";

/** A run of a bench as the one value all its forms are made from. */
export const sessionOf = (bench: Bench, run: Run): SessionSummary =>
  sessionSummary(bench, run, (id) => {
    const sheet = sheetById(bench, id);
    return sheet === undefined
      ? undefined
      : { name: sheet.name, invented: sheet.invented === true };
  });
