import { z } from "zod";
import { afterQuestion } from "../src/commands/after-run.ts";
import { askFor, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import { lookStep } from "../src/commands/look-steps.ts";
import { pastOfNamed, runNamed } from "../src/commands/run-named.ts";
import { sessionOf } from "../src/commands/session-of.ts";
import { ownValue } from "../src/domain/own-value.ts";
import {
  clearParts,
  edgeNumbers,
  type FirstLook,
  places,
  rebates,
  rgbSchema,
} from "../src/domain/record/first-look.ts";
import { anyTankWet, openQuestion } from "../src/domain/record/open-questions.ts";
import { looksDone } from "../src/domain/record/plan-looks.ts";
import { unseenInFiles, wantsLook } from "../src/domain/record/wants-look.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { broughtBack } from "../src/domain/session/bring-back.ts";
import type { Past } from "../src/domain/session/past.ts";
import type { Run } from "../src/domain/session/run.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const skip = z.object({ skip: z.literal(true) });

const fields = z.object({
  tank: z.string().optional(),
  run: z.string().optional(),
  number: z.number().optional(),
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
  /** Scanner numbers of a grey, said in one breath with those of the edge. */
  grey: rgbSchema.optional(),
  /** What the open question is about; numbers that were not asked for are the edge's. */
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
    "[take] [a|the] first look [at|of|for] run [number] {number} [[is] {seen}]",
    "first look [(at|of|for)] [tank] [{tank}] [is] {seen}",
    "[first look] [[at] [tank] {tank}] [[by|with|on] [the] scanner] [unexposed] edge [is|reads] {rgb} [[and] [a|the] gray [is|reads] {grey}] [in tank {tank}]",
    "first look [[at] [tank] {tank}] [[by|with|on] [the] scanner] {rgb} [[and] [a|the] gray [is|reads] {grey}]",
    "[the] edge numbers (are|look|came out) {seen} [(in|on|of) tank {tank}]",
    "[the] (negatives|negative|film|films|slides) (are|is) dry [(in|of)] [tank] [{tank}]",
  ],
  slots: { grey: "rgb" },
  examples: ["first look", "first look crisp, clear, clean"],
  fields,
  changes: true,
  reads: (bench, said) => {
    const named = said.tank ?? said.number ?? said.run;
    if (named !== undefined) return pastOfNamed(bench, said);
    const waits = Object.values(bench.runs).some(wantsLook);
    return !waits && bench.pastRuns.some(({ unseen }) => unseen !== undefined)
      ? "past-runs"
      : undefined;
  },
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
  run({ bench, past, now }, said) {
    const run = runSeen(bench, past, now, said);
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

const hasFilm = ({ endedAt, rehearsal, nothingIn }: Run): boolean =>
  endedAt !== undefined && rehearsal === undefined && nothingIn !== true;

/** The run that was named; else the last one over that nobody has looked at, or the last. */
function runSeen(
  bench: Bench,
  past: Past,
  now: Instant,
  { run: id, number, tank }: Said,
): Run | undefined {
  if (id !== undefined || number !== undefined || tank !== undefined) {
    const named = runNamed(bench, past, { run: id, number, tank });
    return named !== undefined && hasFilm(named) ? named : undefined;
  }
  const over = Object.values(bench.runs)
    .filter(hasFilm)
    .toSorted((one, other) => (other.endedAt ?? 0) - (one.endedAt ?? 0));
  const open = over.find(wantsLook);
  if (open !== undefined) return open;
  const left = unseenInFiles(bench, now).at(-1);
  return (
    past.runs.find((run) => run.id === left?.id) ??
    over.find(({ firstLook }) => firstLook === undefined) ??
    over[0]
  );
}

function looked(bench: Bench, run: Run, now: Instant, said: Said): Outcome | Reply {
  const { seen = {}, rgb, grey, about } = said;
  const { skip: skips, scanner: byScanner, ...shown } = seen;
  const numbersOf = about === "grey" ? "grey" : "edge";
  const number = rgb !== undefined && "red" in rgb ? rgb : undefined;
  const passed = skips === true || (rgb !== undefined && number === undefined);
  const skipped = passed && about !== undefined ? [...said.skipped, about] : said.skipped;
  const scanner = said.scanner || byScanner === true || number !== undefined;
  const fresh: Partial<FirstLook> = {
    ...shown,
    ...(number === undefined ? {} : { [numbersOf]: number }),
    ...(grey === undefined ? {} : { grey }),
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
  const atHand = Object.hasOwn(bench.runs, run.id);
  const left = [...unseenInFiles(after, now), ...Object.values(after.runs).filter(wantsLook)];
  const waiting = left.map(({ tank }) => tank);
  return {
    bench: after,
    reply: result(after, ownValue(after.runs, run.id) ?? run, waiting, atHand),
  };
}

function withLook(bench: Bench, run: Run, firstLook: FirstLook): Bench {
  const back = broughtBack(bench, run);
  return { ...back, runs: { ...back.runs, [run.id]: { ...run, firstLook } } };
}

const nameOf = (bench: Bench, run: Run): string =>
  `${run.tank}, ${showDate(dateOf(run.endedAt ?? run.plannedAt, bench.zone))}`;

/** What it hints at, and the one question that may still be open of a run that is not long ago. */
function result(bench: Bench, run: Run, waiting: readonly string[], recent: boolean): Reply {
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
  const parts = {
    lines: [
      ...(lines.length === 0 ? ["It hints at nothing by itself."] : [...lines, HINT]),
      ...(waiting.length === 0 ? [] : [`Not looked at yet: ${waiting.join(", ")}.`]),
    ],
    say: "The first look is in the record.",
    facts: { run: run.id, tank: run.tank, ...facts, hints: look.hints },
  };
  const open = recent ? openQuestion(run) : undefined;
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
