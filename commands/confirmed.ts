import { z } from "zod";
import { concludeDiagnosis } from "../src/commands/conclude-diagnosis.ts";
import { defineCommand, type Outcome } from "../src/commands/define-command.ts";
import {
  chemicalCautions,
  rescueWords,
  showSource,
  symptomsCalled,
} from "../src/commands/diagnosis-answer.ts";
import { logOf } from "../src/commands/diagnosis-log.ts";
import { causeMeant, culpritMeant } from "../src/commands/proved-cause.ts";
import { LOOK_AT_THEM, recallFor, showRecall } from "../src/commands/recall-list.ts";
import { sheetById } from "../src/commands/sheets.ts";
import { faultTables } from "../src/data/faults.ts";
import { type Diagnosis, withDiagnosis } from "../src/domain/faults/diagnosis.ts";
import type { Cause } from "../src/domain/faults/tables.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { allRuns } from "../src/domain/session/past.ts";
import type { Run } from "../src/domain/session/run.ts";
import { type Culprit, markSuspect } from "../src/domain/session/suspicion.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

export const confirmedCommand = defineCommand({
  name: "confirmed",
  summary:
    "A cause of the last diagnosis proved true: it is logged, and what it touched is listed.",
  topic: "run",
  sentences: [
    "(confirmed|confirm|confirm cause|confirm number|cause|it is number|it was number|number) {number} [(is|was) (right|true|it)] [confirmed]",
    "(cause|number) {number} (proved|turned out|turned out to be|is|was) (right|true|it)",
    "(it was|it is|it turned out to be|it proved to be|that was|so it was|confirmed|confirm|yes it was|turns out it was|it must have been) [because of] {cause}",
    "(it was|it turned out to be|it proved to be|so it was|confirmed|turns out it was) [bottle] {bottle}",
    // Where it was, and not yet what.
    "(it was|it turned out to be|it proved to be|so it was|turns out it was) [the] (developer|first developer|colour developer|blix|bleach|chemistry|temperature)",
    "(it was|it turned out to be|it proved to be|so it was|confirmed|turns out it was) [the] {thermometer} thermometer",
  ],
  slots: { thermometer: "word" },
  examples: ["confirmed 1", "it was the bottle", "it was the thermometer"],
  fields: z.object({
    number: z
      .number()
      .int("Say its place in the list, like 1.")
      .min(1, "Say its place in the list, like 1.")
      .max(20, "Say its place in the list, like 1.")
      .optional(),
    cause: z.string().optional(),
    bottle: z.string().optional(),
    thermometer: z.string().max(30, "Say which thermometer in a word, like red.").optional(),
  }),
  changes: true,
  reads: "past-runs",
  values: {
    cause: "what proved true, by id",
    symptoms: "of which faults, by id",
    tank: "the tank of that run, null where none is known",
    what: "bottle, sheet or thermometer that was set apart, null where nothing was",
    name: "its name, null where nothing was set apart",
    also: "bottles that are suspect with it, since it was poured into them",
    runs: "one entry a run it touched: run, tank, title, at (ISO), film",
    rolls: "rolls it touched, by name",
    units: "film it touched, units of 80 sq in",
  },
  run({ bench: before, past, now, who }, wanted) {
    const runs = allRuns(before, past);
    const open = openSearch(before);
    if (open !== undefined && wanted.number !== undefined) {
      return refuse(
        "not-finished",
        `I have not told causes of ${symptomsCalled(open)} yet. Say go on with the diagnosis.`,
        { say: "I have not told the causes yet. Say what went wrong." },
      );
    }
    // What it was may be known before all is asked.
    const bench =
      open === undefined ? before : concludeDiagnosis(before, runs, open, open.run, who, now).bench;
    const last = bench.diagnoses?.at(-1);
    if (last === undefined) {
      return refuse("no-diagnosis", "There is no diagnosis to confirm. Say what went wrong.", {
        say: "There is no diagnosis yet. Say what went wrong.",
      });
    }
    const run = logOf(bench, runs, last.run)?.run;
    const names = last.ranking
      .slice(0, 3)
      .map((id, index) => `${index + 1} ${faultTables.causes.get(id)?.name ?? id}`);
    if (Object.values(wanted).every((one) => one === undefined)) {
      return refuse(
        "which-cause",
        `What of it? In front: ${names.join(", ")}. Say confirmed 1, or it was the bottle.`,
        { say: "What of it? Say confirmed and its number." },
      );
    }
    const cause = causeMeant(last, run, wanted);
    if (cause === undefined) {
      return refuse(
        "not-in-ranking",
        `That is not in the last ranking. In front: ${names.join(", ")}.`,
        { say: "That is not in the ranking. Say confirmed and a number." },
      );
    }
    const culprit = culpritMeant(bench, run, cause, wanted);
    if (culprit !== undefined && "reply" in culprit) return culprit.reply;
    return proved(bench, last, run, cause, culprit, { now, who });
  },
});

/** A search half way that was begun after the last one that came to a ranking. */
function openSearch({ diagnosing, diagnoses }: Bench): Bench["diagnosing"] {
  const last = diagnoses?.at(-1);
  return diagnosing === undefined || (last !== undefined && last.at > diagnosing.at)
    ? undefined
    : diagnosing;
}

function proved(
  bench: Bench,
  last: Diagnosis,
  run: Run | undefined,
  cause: Cause,
  culprit: Culprit | undefined,
  { now, who }: { readonly now: Instant; readonly who: string },
): Outcome {
  const what = symptomsCalled(last);
  const diagnoses = withDiagnosis(bench.diagnoses, {
    ...last,
    proved: { cause: cause.id, at: now, by: who, ...(culprit === undefined ? {} : { culprit }) },
  });
  const name = culprit === undefined ? undefined : nameOf(bench, culprit);
  const note = `diagnosis of ${what}: it proved that ${cause.name}${name === undefined ? "" : ` (${name})`}`;
  const logged = withNote({ ...bench, diagnoses }, last.run, note, now);
  const facts = {
    cause: cause.id,
    symptoms: [...last.symptoms],
    tank: run?.tank ?? last.tank ?? null,
    what: culprit?.kind ?? null,
    name: name ?? null,
  };
  const rescue = `${rescueWords[cause.rescue.possible]}: ${cause.rescue.text} [${showSource(cause.rescue.from)}]`;
  const cautions = chemicalCautions([{ cause: { ...cause, checks: [] } }]);
  // A run in a file of its own stays as it is; the diagnosis itself keeps what proved true.
  const here = last.run !== undefined && ownValue(bench.runs, last.run) !== undefined;
  const where = here && run !== undefined ? `Logged with ${run.tank}` : "Logged";
  if (culprit === undefined || name === undefined) {
    return {
      bench: logged,
      reply: answer({
        title: `${where}: ${cause.name}.`,
        lines: [
          rescue,
          ...(cause.culprit === undefined || run !== undefined
            ? []
            : ["I know no run it belongs to. To mark a bottle, say its name and is suspect."]),
        ],
        say: `${where}.`,
        facts,
        cautions,
      }),
    };
  }
  const marked = markSuspect(logged, culprit, `${cause.name} (${what})`, now, {
    contaminated: cause.foul === true,
  });
  const recall = recallFor(marked.bench, culprit);
  const shown = showRecall(marked.bench, recall);
  return {
    bench: marked.bench,
    reply: answer({
      title: `${where}: ${cause.name}. ${name.charAt(0).toUpperCase()}${name.slice(1)} is SUSPECT.`,
      lines: [
        rescue,
        ...(marked.also.length === 0 ? [] : [`Suspect with it: ${marked.also.join(", ")}.`]),
        ...shown.lines,
        ...(recall.runs.length === 0 ? [] : [LOOK_AT_THEM]),
      ],
      say: oneBreath(`${name} is suspect. ${shown.say}`),
      figures: shown.figures,
      facts: { ...facts, also: [...marked.also], ...shown.facts },
      cautions,
    }),
  };
}

function nameOf(bench: Bench, { kind, id }: Culprit): string {
  if (kind === "bottle") return ownValue(bench.bottles, id)?.name ?? id;
  if (kind === "sheet") return `sheet ${sheetById(bench, id)?.name ?? id}`;
  return `the ${id} thermometer`;
}

/** With the run, where it is at hand. */
function withNote(bench: Bench, runId: string | undefined, text: string, at: Instant): Bench {
  const run = runId === undefined ? undefined : ownValue(bench.runs, runId);
  if (run === undefined) return bench;
  const noted = { ...run, notes: [...run.notes, { at, text }] };
  return { ...bench, runs: { ...bench.runs, [run.id]: noted } };
}
