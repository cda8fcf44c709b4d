import { faultTables } from "../data/faults.ts";
import { bathCautions } from "../data/safety.ts";
import { capital } from "../domain/capital.ts";
import type { Seen } from "../domain/faults/diagnosis.ts";
import { likelihoodOf, type RankedCause, type Weight } from "../domain/faults/rank.ts";
import type { FaultSource, Sourced } from "../domain/faults/tables.ts";
import type { Bench } from "../domain/session/bench.ts";
import { clockMinute, dateOf, showDate } from "../domain/timing/clock-text.ts";
import { answer, type Json, oneBreath, type Reply } from "../reply/reply.ts";
import type { RunLog } from "./diagnosis-log.ts";

/** Causes told in full; the rest are named. */
const TOLD = 3;
/** Causes further back that are named. */
const NAMED = 4;
/** Reasons told for and against each; `why` shows them all. */
const REASONS = 3;

export const showSource = ({ source, grade }: FaultSource): string =>
  source.startsWith(grade) ? source : `${source}; ${grade}`;

const cited = ({ text, from }: Sourced): string => `${text} [${showSource(from)}]`;

export const symptomsCalled = ({ symptoms }: Seen): string =>
  symptoms.map((id) => faultTables.symptoms.get(id)?.name ?? id).join(" and ");

/** What was seen, in which run, and what is most likely of it. */
export function verdictReply(
  bench: Bench,
  seen: Seen,
  log: RunLog | undefined,
  ranking: readonly RankedCause[],
): Reply {
  const [first] = ranking;
  const what = capital(symptomsCalled(seen));
  const where =
    log === undefined
      ? ""
      : `, ${log.run.tank} of ${showDate(dateOf(log.run.plannedAt, bench.zone))}, ${clockMinute(log.run.plannedAt, bench.zone)}`;
  const close = ranking.slice(1, 2).filter(() => likelihoodOf(ranking, 1) === "about as likely");
  const equal = close.map(({ cause }) => `; about as likely: ${cause.name}`).join("");
  const title =
    first === undefined
      ? `${what}${where}: nothing I know explains it.`
      : `${what}${where}. Most likely of these: ${first.cause.name}${equal}.`;
  const told = ranking
    .slice(0, TOLD)
    .filter((_, index) => likelihoodOf(ranking, index) !== "less likely");
  const rest = ranking.slice(told.length).map(({ cause }) => cause.name);
  return answer({
    title,
    lines: [
      ...told.flatMap((one, index) => causeLines(ranking, one, index)),
      ...(rest.length === 0 ? [] : [furtherBack(rest)]),
      ...(log === undefined
        ? ["I have no log of that run: this is the table and your answers alone."]
        : []),
      "A ranking is no proof: check first, then change one thing.",
      "When it shows, say confirmed 1, or it was the bottle. Why shows the points.",
    ],
    say: sayFirst(first),
    figures: {
      causes: {
        value: ranking.map(causeJson),
        origin: {
          kind: "computed",
          source: "points of the fault table, of your answers and of the log, added up",
        },
      },
      evidence: {
        value: (log?.evidence ?? []).map(({ kind, text }) => ({ kind, text })),
        origin: { kind: "own log" },
      },
    },
    facts: {
      symptoms: [...seen.symptoms],
      given: { ...seen.given },
      run: log?.run.id ?? null,
      tank: log?.run.tank ?? null,
    },
    cautions: chemicalCautions(told),
    working: workingOf(seen, ranking),
  });
}

/** The rest by name; the values hold them all. */
function furtherBack(names: readonly string[]): string {
  const some = names.slice(0, NAMED).join("; ");
  return names.length > NAMED
    ? `Further back: ${some}; and ${names.length - NAMED} more.`
    : `Further back: ${some}.`;
}

function sayFirst(first: RankedCause | undefined): string {
  if (first === undefined) return "Nothing I know explains it. Note it.";
  const whole = `Most likely of these: ${first.cause.name}.`;
  return oneBreath(whole) === whole ? whole : oneBreath(`Most likely: ${first.cause.name}.`);
}

const words: Readonly<Record<ReturnType<typeof likelihoodOf>, string>> = {
  "most likely of these": "Most likely of these",
  "about as likely": "About as likely",
  "could be": "Could be",
  "less likely": "Less likely",
};

function causeLines(
  ranking: readonly RankedCause[],
  { cause, points, weights }: RankedCause,
  index: number,
): readonly string[] {
  const spoken = weights.filter(({ kind }) => kind !== "table");
  const side = (is: (weight: Weight) => boolean): readonly string[] =>
    spoken
      .filter(is)
      .toSorted((a, b) => Math.abs(b.points) - Math.abs(a.points))
      .slice(0, REASONS)
      .map(({ kind, text }) => (kind === "log" ? `${text} [log]` : text));
  const speaksFor = side((weight) => weight.points > 0);
  const against = side((weight) => weight.points < 0);
  return [
    `${index + 1}. ${words[likelihoodOf(ranking, index)]}: ${cause.name} (${showPoints(points)}).`,
    `   How: ${cited(cause.how)}`,
    ...(speaksFor.length === 0 ? [] : [`   For: ${speaksFor.join("; ")}.`]),
    ...(against.length === 0 ? [] : [`   Against: ${against.join("; ")}.`]),
    ...cause.checks.map(
      (check) =>
        `   ${check.chemicals.length === 0 ? "Check" : "Then, with chemicals"}: ${cited(check)}`,
    ),
    `   ${rescueWords[cause.rescue.possible]}: ${cited(cause.rescue)}`,
  ];
}

export const rescueWords = {
  yes: "Can be rescued",
  partly: "Partly rescued",
  no: "No rescue",
} as const;

/** What hands should be told before they touch what the checks and rescues speak of. */
export function chemicalCautions(told: readonly Pick<RankedCause, "cause">[]): readonly string[] {
  const kinds = new Set(
    told.flatMap(({ cause }) =>
      [...cause.checks, cause.rescue].flatMap(({ chemicals }) => chemicals),
    ),
  );
  if (kinds.size === 0) return [];
  const lines = [...kinds].flatMap((kind) =>
    (bathCautions[kind] ?? []).filter(({ when }) => when.includes("run")).map(({ text }) => text),
  );
  const always = (bathCautions.mixing ?? []).map(({ text }) => text);
  return [...new Set([...always, ...lines])];
}

const causeJson = ({ cause, points, weights }: RankedCause, index: number): Json => ({
  place: index + 1,
  cause: cause.id,
  name: cause.name,
  points,
  table: sumOf(weights, "table"),
  answers: sumOf(weights, "answer"),
  log: sumOf(weights, "log"),
  rescue: cause.rescue.possible,
});

const sumOf = (weights: readonly Weight[], kind: Weight["kind"]): number =>
  weights.filter((one) => one.kind === kind).reduce((sum, { points }) => sum + points, 0);

const showPoints = (points: number): string =>
  `${points} point${Math.abs(points) === 1 ? "" : "s"}`;

const signed = (points: number): string => (points < 0 ? `${points}` : `+${points}`);

function workingOf(seen: Seen, ranking: readonly RankedCause[]): readonly string[] {
  const from = seen.symptoms.flatMap((id) => faultTables.symptoms.get(id)?.from ?? []);
  return [
    "Points add up: the table's, your answers' and the log's. How much each is worth is our own judgement; nothing is ever certain.",
    `Causes of ${symptomsCalled(seen)}: ${[...new Set(from.map(showSource))].join(" | ")}.`,
    ...ranking
      .slice(0, 5)
      .flatMap(({ cause, points, weights }, index) => [
        `${index + 1}. ${cause.name}: ${showPoints(points)}`,
        ...weights.map(
          ({ kind, points: worth, text, from: source }) =>
            `   ${signed(worth)} ${kind}: ${text} [${kind === "log" ? "this bench's own log; weighed by " : ""}${showSource(source)}]`,
        ),
      ]),
  ];
}
