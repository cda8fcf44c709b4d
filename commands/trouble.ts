import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { bathByClock, isFilmWet, troubleCase } from "../src/commands/trouble-case.ts";
import { type Rescue, rescues, troubleWords } from "../src/data/rescues.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import type { Run } from "../src/domain/session/run.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const troubleCommand = defineCommand({
  name: "trouble",
  summary: "Something went wrong at the tank: two questions, then what to do.",
  topic: "run",
  sentences: [
    "(trouble|help quick|problem|something went wrong)",
    "trouble [with|the] {what}",
    "[trouble] {mishap}",
  ],
  slots: { what: "text", detail: "text" },
  examples: ["trouble", "light got in", "i forgot the stop bath"],
  fields: z.object({
    what: z.string().optional(),
    detail: z.string().optional(),
    /** Told in a sentence of their own. */
    mishap: z.object({ what: z.string(), detail: z.string().optional() }).optional(),
  }),
  changes: false,
  aside: true,
  values: { what: "the trouble", detail: "the case", source: "where the verdict comes from" },
  run({ bench, now }, { mishap, ...said }) {
    const what = mishap?.what ?? said.what;
    const isWet = isFilmWet(bench, now);
    const clockNote = isWet ? ["A running clock runs on."] : [];
    if (what === undefined) {
      return askFor(
        "trouble",
        {},
        "what",
        "What happened? Is anyone hurt: say emergency, or eyes, skin, cut, burn.",
        rescues.map(({ word, id }) => ({ word, value: id })),
        {
          say: "What happened: light, wrong bath, forgot, temperature, or spill?",
          lines: clockNote,
        },
      );
    }
    const told = what.toLowerCase();
    const rescue =
      rescues.find(({ id, word }) => id === told || word === told) ??
      rescues.find(({ words }) => words.some((word) => told.includes(word)));
    if (rescue === undefined) {
      return refuse(
        "unknown-trouble",
        `I have no advice on "${what.slice(0, 60)}".${isWet ? " Finish the bath by its clock and note it." : " No clock is running: nothing hurries."}`,
        {
          say: isWet
            ? "I do not know that one. Finish by the clock."
            : "I do not know that one. No clock is running.",
          lines: [
            ...(isWet ? ["A wet film in a closed tank can wait in the wash while you think."] : []),
            `Advice I have is on ${rescues.map(({ word }) => word).join(", ")}. Anyone hurt? Say emergency.`,
          ],
        },
      );
    }
    // Who tells of it in a sentence of their own is not asked for what the clock knows.
    const known =
      mishap !== undefined && rescue.id === "light" ? bathByClock(bench, now) : undefined;
    const detail = said.detail?.toLowerCase() ?? mishap?.detail ?? known;
    const which = detail === undefined ? undefined : troubleCase(bench, rescue.id, detail, now);
    const verdict = which === undefined ? undefined : ownValue(rescue.verdicts, which.verdict);
    if (detail === undefined || verdict === undefined) {
      return askFor(
        "trouble",
        { what: rescue.id },
        "detail",
        rescue.ask.title,
        rescue.ask.options,
        {
          lines: clockNote,
        },
      );
    }
    const run = liveRuns(bench)[0];
    return {
      bench: run === undefined ? bench : withTrouble(bench, run, rescue, detail, now),
      reply: answer({
        title: verdict.say,
        lines: [
          ...(which?.lines ?? []),
          ...verdict.lines,
          run === undefined
            ? "Say note and what happened, so that the record has it."
            : "The record has it. Say note for more of what happened.",
        ],
        say: verdict.say,
        facts: { what: rescue.id, detail, source: verdict.source },
        working: [`Founded on: ${verdict.source}.`],
      }),
    };
  },
});

/** The trouble in the record of its run. */
function withTrouble(bench: Bench, run: Run, rescue: Rescue, detail: string, at: Instant): Bench {
  const troubles = [...(run.troubles ?? []), { at, ...troubleWords(rescue, detail) }];
  return { ...bench, runs: { ...bench.runs, [run.id]: { ...run, troubles } } };
}
