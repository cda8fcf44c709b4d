import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { isUnnamed, LOOK_AT_THEM, recallFor, showRecall } from "../src/commands/recall-list.ts";
import { sheetById } from "../src/commands/sheets.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import type { Culprit } from "../src/domain/session/suspicion.ts";
import { answer } from "../src/reply/reply.ts";

export const recallCommand = defineCommand({
  name: "recall",
  summary: "Every run and roll that a bottle, sheet or thermometer touched.",
  topic: "bottle",
  sentences: [
    "(recall|recall list|recall list for) [the] [{bottle}]",
    "what (did|has) {bottle} (touch|touched|been in)",
    "(what|which runs|which rolls|which films|which film) (has been|have been|was|were|went|was developed|were developed) (in|through) {bottle}",
    "which (runs|rolls|films) (did|has|were) [in] {bottle} [touch|touched]",
    "(recall|recall list for) [the] {thermometer} thermometer",
    "(recall|recall list for) [the] [sheet] {sheet} [sheet]",
  ],
  slots: { thermometer: "word" },
  examples: ["recall Acorn", "recall the red thermometer"],
  fields: z.object({
    bottle: z.string().optional(),
    sheet: z.string().optional(),
    thermometer: z.string().optional(),
  }),
  changes: false,
  values: {
    names: "what the list is for",
    runs: "one entry a run: run, tank, title, at (ISO), film; of the first name",
    rolls: "rolls it touched, by name",
    units: "film it touched, units of 80 sq in",
  },
  run({ bench }, { bottle, sheet, thermometer }) {
    const culprits = meant(bench, bottle, sheet, thermometer);
    if (culprits.length === 0) {
      return answer({
        title: "Nothing is marked as suspect.",
        lines: ["Say recall Acorn for what one bottle touched."],
        say: "Nothing is marked as suspect.",
        facts: { names: [] },
      });
    }
    const parts = culprits.map((culprit) => {
      const recall = recallFor(bench, culprit);
      return {
        name: nameOf(bench, culprit),
        runs: recall.runs.length,
        ...showRecall(bench, recall),
      };
    });
    const [first] = parts;
    const names = parts.map(({ name }) => name);
    return answer({
      title: `Recall: ${names.join(", ")}`,
      lines: [
        ...(parts.length === 1
          ? (first?.lines ?? [])
          : parts.flatMap(({ name, lines }) => [`${name}:`, ...lines])),
        ...(parts.some(({ runs }) => runs > 0) ? [LOOK_AT_THEM] : []),
      ],
      say: first === undefined ? "" : `${first.name}: ${first.say}`,
      figures: first?.figures ?? {},
      facts: { names, ...first?.facts },
    });
  },
});

function meant(
  bench: Bench,
  bottle: string | undefined,
  sheet: string | undefined,
  thermometer: string | undefined,
): readonly Culprit[] {
  if (bottle !== undefined) return [{ kind: "bottle", id: bottle }];
  if (sheet !== undefined) return [{ kind: "sheet", id: sheet }];
  if (thermometer !== undefined) {
    // "The thermometer" has no name: the readings that named none are its own.
    const id = isUnnamed(thermometer) ? "" : thermometer.toLowerCase();
    return [{ kind: "thermometer", id }];
  }
  return [
    ...Object.values(bench.bottles)
      .filter(({ suspect, retiredOn }) => suspect !== undefined && retiredOn === undefined)
      .map(({ id }): Culprit => ({ kind: "bottle", id })),
    ...(bench.suspects ?? []).map(({ kind, name }): Culprit => ({ kind, id: name })),
  ];
}

function nameOf(bench: Bench, { kind, id }: Culprit): string {
  if (kind === "bottle") return ownValue(bench.bottles, id)?.name ?? id;
  if (kind === "sheet") return `sheet ${sheetById(bench, id)?.name ?? id}`;
  return id === "" ? "the thermometer" : `the ${id} thermometer`;
}
