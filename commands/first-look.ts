import { z } from "zod";
import { afterQuestion } from "../src/commands/after-run.ts";
import { askFor, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import { lookStep } from "../src/commands/look-steps.ts";
import { sessionOf } from "../src/commands/session-of.ts";
import {
  clearParts,
  edgeNumbers,
  type FirstLook,
  places,
  rebates,
  rgbSchema,
} from "../src/domain/record/first-look.ts";
import { anyTankWet, openQuestion } from "../src/domain/record/open-questions.ts";
import { looksDone, wantsLook } from "../src/domain/record/plan-looks.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { runOfTank } from "../src/domain/session/find-run.ts";
import type { Run } from "../src/domain/session/run.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const skip = z.object({ skip: z.literal(true) });

const fields = z.object({
  tank: z.string().optional(),
  run: z.string().optional(),
  seen: z
    .object({
      edgeNumbers: z.enum(edgeNumbers).optional(),
      clearParts: z.enum(clearParts).optional(),
      rebate: z.enum(rebates).optional(),
      sameOnAll: z.boolean().optional(),
      place: z.enum(places).optional(),
      skip: z.boolean().optional(),
      scanner: z.boolean().optional(),
    })
    .optional(),
  rgb: z
    .union([rgbSchema, skip], "Three numbers: red, green and blue, like 201 128 90.")
    .optional(),
  /** What the open question is about. */
  about: z
    .enum(["edgeNumbers", "clearParts", "rebate", "sameOnAll", "place", "edge", "grey"])
    .optional(),
  skipped: z.array(z.string()).default([]),
  scanner: z.boolean().default(false),
});
type Said = z.output<typeof fields>;

export const firstLookCommand = defineCommand({
  name: "first look",
  summary: "What the dry film shows, by eye or in a scanner's numbers.",
  topic: "run",
  sentences: [
    "[take] [a|the] first look [(at|of|for)] [[the] tank] [{tank}]",
    "first look [(at|of|for)] [tank] [{tank}] [is] {seen}",
    "[the] (negatives|negative|film|films|slides) (are|is) dry [(in|of)] [tank] [{tank}]",
  ],
  examples: ["first look", "first look crisp, clear, clean"],
  fields,
  changes: true,
  values: {
    run: "id of the run",
    tank: "its name",
    edge_numbers: "crisp, faint, missing, or null",
    clear_parts: "clear, cloudy, tinted, or null",
    rebate: "sound, fogged, or null",
    same_on_all: "true, false, or null",
    place: "same, different, nothing, or null",
    edge_rgb: "scanner numbers of the unexposed edge: red, green, blue, most; or null",
    grey_rgb: "the same of a grey",
    hints: "list of { text, source }; source null where there is none",
  },
  run({ bench, now }, said) {
    const run = runSeen(bench, said);
    if (run === undefined) {
      return refuse(
        "no-run",
        "No film is finished that could be looked at. Say it once a run is over.",
        { say: "No film is finished yet." },
      );
    }
    if (anyTankWet(bench, now) && said.about === undefined) {
      return answer({
        title: "Film is wet in a tank: the first look can wait. Say first look afterwards.",
        say: "Film is wet. The first look can wait.",
        facts: { run: run.id, tank: run.tank },
      });
    }
    return looked(bench, run, now, said);
  },
});

/** The run that was named; else the last one over that nobody has looked at, or the last. */
function runSeen(bench: Bench, { run: id, tank }: Said): Run | undefined {
  if (id !== undefined) return bench.runs[id];
  const over = Object.values(bench.runs)
    .filter(
      (run) => run.endedAt !== undefined && run.rehearsal === undefined && run.nothingIn !== true,
    )
    .toSorted((one, other) => (other.endedAt ?? 0) - (one.endedAt ?? 0));
  if (tank !== undefined) {
    const named = runOfTank(bench, tank);
    return over.find(({ id: known }) => known === named?.id);
  }
  return over.find(({ firstLook }) => firstLook === undefined) ?? over[0];
}

function looked(bench: Bench, run: Run, now: Instant, said: Said): Outcome | Reply {
  const { seen = {}, rgb, about } = said;
  const { skip: skips, scanner: byScanner, ...shown } = seen;
  const number = rgb !== undefined && "red" in rgb ? rgb : undefined;
  const passed = skips === true || (rgb !== undefined && number === undefined);
  const skipped = passed && about !== undefined ? [...said.skipped, about] : said.skipped;
  const scanner = said.scanner || byScanner === true;
  const fresh: Partial<FirstLook> = {
    ...shown,
    ...(number !== undefined && (about === "edge" || about === "grey") ? { [about]: number } : {}),
  };
  const told = Object.keys(fresh).length > 0;
  // What was told before stands: only what is open is asked.
  const { at: _, ...look }: Partial<FirstLook> = { ...run.firstLook, ...fresh };
  const after = told ? looksDone(withLook(bench, run, { ...look, at: now }), run.id) : bench;
  const step = lookStep(run, look, skipped, scanner);
  if (step !== undefined) {
    const fields = { run: run.id, about: step.about, skipped, scanner };
    const begun = about === undefined && !told;
    const title = begun ? `${nameOf(bench, run)}: ${step.title}` : step.title;
    const reply = askFor("first look", fields, step.slot, title, step.options, {
      say: step.say,
      facts: { run: run.id, tank: run.tank },
    });
    return told ? { bench: after, reply } : reply;
  }
  return { bench: after, reply: result(after, after.runs[run.id] ?? run) };
}

const withLook = (bench: Bench, run: Run, firstLook: FirstLook): Bench => ({
  ...bench,
  runs: { ...bench.runs, [run.id]: { ...run, firstLook } },
});

const nameOf = (bench: Bench, run: Run): string =>
  `${run.tank}, ${showDate(dateOf(run.endedAt ?? run.plannedAt, bench.zone))}`;

/** What it hints at, and the one question that may still be open. */
function result(bench: Bench, run: Run): Reply {
  const look = sessionOf(bench, run).first_look;
  if (look === null) {
    return answer({
      title: "Nothing was told, so nothing is kept.",
      say: "Nothing was told, so nothing is kept.",
      facts: { run: run.id, tank: run.tank },
    });
  }
  const lines = look.hints.map(({ text, source }) =>
    source === null ? text : `${text} [${source}]`,
  );
  const { on: _, ...facts } = look;
  const title = `First look at ${run.tank} is in the record.`;
  const waiting = Object.values(bench.runs).filter(wantsLook);
  const parts = {
    lines: [
      ...(lines.length === 0 ? ["It hints at nothing by itself."] : [...lines, HINT]),
      ...(waiting.length === 0
        ? []
        : [`Not looked at yet: ${waiting.map(({ tank }) => tank).join(", ")}.`]),
    ],
    say: "The first look is in the record.",
    facts: { run: run.id, tank: run.tank, ...facts, hints: look.hints },
  };
  const open = openQuestion(run);
  const asked = open?.kind === "different" ? afterQuestion(run, [], open) : undefined;
  return asked === undefined
    ? answer({ title, ...parts })
    : {
        ...answer({ title: `${title} ${asked.title}`, ...parts, say: asked.say }),
        kind: "question",
        ask: asked.ask,
      };
}

const HINT = "Hints, no findings: the film and the log decide.";
