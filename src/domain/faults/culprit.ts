import { isDeveloper } from "../process/sheet.ts";
import type { Run } from "../session/run.ts";
import type { Culprit } from "../session/suspicion.ts";
import { bleaches, fixes, stagesWith } from "./run-facts.ts";
import type { CulpritRole } from "./tables.ts";

/**
 * What in a run stands for a role: its bottles that film really met, its sheet, the thermometers
 * that read its developer (or, where none did, any bath), by name.
 */
export function culpritsOf(run: Run, role: CulpritRole): readonly Culprit[] {
  if (role === "sheet") return [{ kind: "sheet", id: run.sheet }];
  if (role === "thermometer") {
    const named = (of: (stage: number) => boolean): readonly string[] =>
      run.readings.flatMap(({ stage, thermometer }) =>
        thermometer !== undefined && of(stage) ? [thermometer.toLowerCase()] : [],
      );
    const developers = new Set(stagesWith(run, isDeveloper).map(({ index }) => index));
    const read = named((stage) => developers.has(stage));
    return [...new Set(read.length > 0 ? read : named(() => true))].map((id) => ({
      kind: "thermometer",
      id,
    }));
  }
  const is = role === "developer" ? isDeveloper : role === "fixing" ? fixes : bleaches;
  const bottles = stagesWith(run, is).flatMap(({ stage: { bottle, inAt } }) =>
    bottle === undefined || inAt === undefined ? [] : [bottle],
  );
  return [...new Set(bottles)].map((id) => ({ kind: "bottle", id }));
}
