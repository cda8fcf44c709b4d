import { z } from "zod";
import { concludeDiagnosis } from "../src/commands/conclude-diagnosis.ts";
import {
  defineCommand,
  type Handling,
  type Outcome,
  toJson,
} from "../src/commands/define-command.ts";
import { showSource, symptomsCalled, verdictReply } from "../src/commands/diagnosis-answer.ts";
import { logOf, type RunLog } from "../src/commands/diagnosis-log.ts";
import { NO_RUN, runSpokenOf } from "../src/commands/diagnosis-run.ts";
import { rollsField } from "../src/commands/load-rolls.ts";
import { faultTables } from "../src/data/faults.ts";
import { type Seen, seenSchema, UNKNOWN } from "../src/domain/faults/diagnosis.ts";
import { givenByLook } from "../src/domain/faults/given-by-look.ts";
import { nextFaultQuestion } from "../src/domain/faults/next-question.ts";
import type { FaultQuestion } from "../src/domain/faults/tables.ts";
import { runsOn } from "../src/domain/log/find-runs.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { allRuns } from "../src/domain/session/past.ts";
import { secondsBetween } from "../src/domain/units/quantity.ts";
import { isUnsure, readFaultAnswer } from "../src/language/readers/fault-answer.ts";
import { toWords } from "../src/language/words.ts";
import { type Option, oneBreath, question, type Reply, refuse } from "../src/reply/reply.ts";

/** A search that was left half way is gone on with for so long, s: film has to dry and be looked at. */
const OPEN = 24 * 3600;
const DO_NOT_KNOW: Option = { word: "don't know", value: UNKNOWN };

const common = ["blank", "thin", "dense", "milky", "muddy", "fogged", "streaks", "drop-marks"];

const fields = z.object({
  complaint: seenSchema.optional(),
  seen: seenSchema.optional(),
  tank: z.string().optional(),
  rolls: rollsField.optional(),
  number: z.number().optional(),
  pastDate: z.string().optional(),
  /** The run it is about, once that is settled. */
  run: z.string().optional(),
  /** The tank in words, where several were asked about. */
  which: z.string().max(60, "Say the name of the tank.").optional(),
  /** The question this is the answer to. */
  asked: z.string().optional(),
  reply: z.string().max(200, "Say one of the words, or don't know.").optional(),
});
type Wanted = z.output<typeof fields>;

export const diagnoseCommand = defineCommand({
  name: "diagnose",
  summary:
    "What went wrong with a film: a few questions, then the likely causes and what to check.",
  topic: "run",
  sentences: [
    "{complaint}",
    "{rolls} {seen}",
    "tank {tank} {complaint}",
    "[(in|from|of)] tank {tank} [film] {seen}",
    "(diagnose|diagnosis|troubleshoot|what went wrong|what is wrong|what has gone wrong|what did i do wrong|what could be wrong|find the fault|find out what went wrong) [(with|in|of|for|at)] [tank] {tank} [tank]",
    "(diagnose|diagnosis|troubleshoot|what went wrong|what is wrong|what has gone wrong|what did i do wrong|what could be wrong|find the fault|find out what went wrong|go on with the diagnosis|continue the diagnosis|back to the diagnosis) [(with|in|of|for|here) [it|film|negatives|roll|last roll|last run|run]]",
    "(diagnose|diagnosis|troubleshoot|what went wrong|what is wrong|what causes|what caused|what makes|what could cause|what can cause|what is the cause of|where do|why do i (get|have|see)|how come|what do i do about|what about|what can i do about) [when|if|with|for|that|it is] {seen}",
    "(diagnose|diagnosis of|what went wrong with|what went wrong in) [the] run [number] {number}",
    "(diagnose|diagnosis of|what went wrong) [(with|in)] [the] [run|film|roll|rolls] (of|on|from) [the] {pastDate}",
    "(diagnose|what went wrong with|what is wrong with|what happened to|what happened with) {rolls}",
    "(what happened|something is wrong|something went wrong|something is off|something happened) (to|with|on|in) [this|that|last] (film|films|negatives|negs|roll|rolls|pictures|photos|frames)",
    "(film|films|negatives|negs|roll|rolls|pictures|photos|frames) (is|are|looks|look|came out|turned out) [all|a bit|very|completely] (weird|ruined|wrong|strange|bad|spoiled|spoilt)",
    "(how do i|can i|how can i|how to) (fix|save|rescue|cure|treat|remove|avoid|prevent|get rid of) {complaint}",
    "(what|can) (does|do|is|are|causes|[a]) {complaint}",
    "(why|how come) (is|are|does|do|did|has|have|was|were) {complaint}",
  ],
  examples: [
    "what went wrong",
    "the negatives are thin",
    "purple streaks on the edge of each frame",
  ],
  slots: { seen: "symptom", reply: "text", which: "text" },
  fields,
  // Nothing of the bench that undo should take back: a search is dropped by beginning another.
  changes: false,
  reads: "past-runs",
  values: {
    symptoms: "what was seen, by id, the one named first in front",
    given: "what was answered: the option's word by question, or unknown",
    run: "id of the run whose log was weighed, null where none was",
    tank: "its tank, null where there is none",
    causes:
      "one entry a cause, most likely first: place, cause, name, points and what makes them up (table, answers, log), rescue (yes, partly, no)",
    evidence: "what the log says of that run, each with kind and text",
    question: "the question asked, by id",
  },
  run(at, wanted) {
    const { bench, now } = at;
    const told = wanted.seen ?? wanted.complaint;
    if (told === undefined) {
      const open = bench.diagnosing;
      const { tank, rolls, number, pastDate } = wanted;
      const named = [tank, rolls, number, pastDate].some((one) => one !== undefined);
      if (open !== undefined && !named && secondsBetween(open.at, now) <= OPEN) {
        const { at: _, run, ...seen } = open;
        return goOn(at, seen, run ?? NO_RUN);
      }
      return askWhat(wanted);
    }
    const seen = withMarking(at.bench, wanted, told);
    if (wanted.run === undefined) {
      const meant = meantRun(at, wanted);
      if (!("tanks" in meant)) return begin(at, seen, meant.run);
      const run = wanted.which === undefined ? undefined : runPicked(wanted.which, meant.tanks);
      return run === undefined ? whichTank(wanted, seen, meant.tanks) : begin(at, seen, run);
    }
    const asked = wanted.asked === undefined ? undefined : faultTables.questions.get(wanted.asked);
    if (asked === undefined || wanted.reply === undefined) return goOn(at, seen, wanted.run);
    const heard = readFaultAnswer(asked, wanted.reply);
    if (heard === undefined) return notRead(seen, wanted.run, asked, wanted.reply);
    if (heard === "enough") return verdict(at, seen, wanted.run);
    return goOn(at, { ...seen, given: { ...seen.given, [asked.id]: heard } }, wanted.run);
  },
});

function meantRun(
  { bench, past }: Handling,
  { rolls, tank, number, pastDate }: Wanted,
): ReturnType<typeof runSpokenOf> {
  const runs = allRuns(bench, past);
  if (rolls !== undefined) {
    return { run: rolls.ids.flatMap((id) => ownValue(bench.rolls, id)?.doneIn ?? [])[0] ?? NO_RUN };
  }
  if (number !== undefined) return { run: `run-${number}` };
  if (pastDate === undefined) return runSpokenOf(runs, tank);
  const there = runsOn(runs, pastDate, bench.zone);
  return there.length === 0 ? { run: NO_RUN } : runSpokenOf(there, tank);
}

/** What stands on the roll that was named, where nothing else was told. */
function withMarking({ rolls: known }: Bench, { rolls }: Wanted, seen: Seen): Seen {
  const marked = (rolls?.ids ?? []).flatMap((id) => known[id]?.marked ?? [])[0];
  return seen.process !== undefined || marked === undefined ? seen : { ...seen, process: marked };
}

/** Rolls of no run: nothing is weighed but the table. */
const logFor = ({ bench, past }: Handling, run: string): RunLog | undefined =>
  run === NO_RUN ? undefined : logOf(bench, allRuns(bench, past), run);

function askWhat({ tank, rolls, number, pastDate }: Wanted): Reply {
  const options = common.flatMap((id) => {
    const symptom = faultTables.symptoms.get(id);
    return symptom === undefined
      ? []
      : [{ word: symptom.name, value: { symptoms: [id], given: {} } }];
  });
  return question(
    {
      command: "diagnose",
      fields: toJson({ tank, rolls, number, pastDate }),
      slot: "seen",
      options,
    },
    "What do you see on the film? Say it in your words.",
    {
      say: "What do you see on the film?",
      lines: ["Dry, on something bright, edges first. No chemicals are needed to look."],
    },
  );
}

type Tanks = readonly { readonly tank: string; readonly run: string }[];

const ANOTHER = "another film";

/** The run of the tank that was said; `NO_RUN` for another film and where nobody knows. */
function runPicked(said: string, tanks: Tanks): string | undefined {
  const words = toWords(said)
    .words.filter((word) => word !== "tank" && word !== "the")
    .join(" ");
  if (words === ANOTHER || words === "another" || words === "none" || isUnsure(words))
    return NO_RUN;
  const named = tanks.find(({ tank }) => tank.toLowerCase() === words);
  return named?.run ?? tanks[Number(words) - 1]?.run;
}

function whichTank({ which, ...wanted }: Wanted, seen: Seen, tanks: Tanks): Reply {
  const names = [...tanks.map(({ tank }) => tank), ANOTHER];
  const ask = {
    command: "diagnose",
    fields: toJson({ ...wanted, seen }),
    slot: "which",
    options: names.map((word) => ({ word, value: word })),
    eager: true,
  };
  const title = `From which tank: ${names.join(", ")}?`;
  if (which === undefined) return question(ask, title);
  return refuse("not-read", `I heard "${which}". ${title}`, { say: oneBreath(title), ask });
}

/** What the first look at this film has answered is not asked again; what is said now outranks it. */
function begin(at: Handling, seen: Seen, run: string): Outcome {
  const log = logFor(at, run);
  if (log === undefined) return goOn(at, seen, run);
  return goOn(at, { ...seen, given: { ...givenByLook(log.run), ...seen.given } }, run);
}

/** One question more, or the ranking when no answer would change what stands in front. */
function goOn(at: Handling, seen: Seen, run: string): Outcome {
  const log = logFor(at, run);
  const next = nextFaultQuestion(faultTables, seen, log?.evidence ?? [], log?.run.process);
  if (next === undefined) return verdict(at, seen, run);
  const first = at.bench.diagnosing?.symptoms.join() !== seen.symptoms.join();
  const where = log === undefined ? "" : `, by the log of ${log.run.tank}`;
  return {
    bench: {
      ...at.bench,
      diagnosing: { ...seen, at: at.now, ...(run === NO_RUN ? {} : { run }) },
    },
    reply: question(askOf(seen, run, next), next.ask, {
      say: next.say ?? oneBreath(next.ask),
      lines: [...(first ? [`Looking for: ${symptomsCalled(seen)}${where}.`] : []), next.how],
      facts: { question: next.id, symptoms: [...seen.symptoms], given: { ...seen.given } },
      working: [
        "Asked because an answer would change which causes stand in front; it needs no chemicals.",
        `${next.how} [${showSource(next.from)}]`,
      ],
    }),
  };
}

const askOf = (seen: Seen, run: string, { id, options }: FaultQuestion) => ({
  command: "diagnose",
  fields: toJson({ seen, run, asked: id }),
  slot: "reply",
  options: [...options.map(({ word }) => ({ word, value: word })), DO_NOT_KNOW],
  eager: true,
});

function notRead(seen: Seen, run: string, asked: FaultQuestion, heard: string): Reply {
  const words = asked.options.map(({ word }) => word).join(", ");
  return refuse(
    "not-read",
    `I heard "${heard.slice(0, 60)}". Say ${words}, don't know, or enough.`,
    { say: "Say one of these, don't know, or enough.", ask: askOf(seen, run, asked) },
  );
}

/** The ranking, kept so that what proves true can be told later. */
function verdict({ bench, past, now, who }: Handling, seen: Seen, run: string): Outcome {
  const spoken = run === NO_RUN ? undefined : run;
  const concluded = concludeDiagnosis(bench, allRuns(bench, past), seen, spoken, who, now);
  const { log, ranking } = concluded;
  return { bench: concluded.bench, reply: verdictReply(bench, seen, log, ranking) };
}
