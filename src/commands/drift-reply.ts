import type { Result } from "../domain/result.ts";
import type { Bench } from "../domain/session/bench.ts";
import { isAnswered, moveEnd, noted, pouringOut } from "../domain/session/drift-run.ts";
import type { Run } from "../domain/session/run.ts";
import type { Offer, Settled } from "../domain/temperature/compensate.ts";
import { type DriftError, explainDrift } from "../domain/temperature/drift.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { stageClock } from "../domain/timing/stage-clock.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { answer, type ReplyParts } from "../reply/reply.ts";
import { askFor, type Outcome } from "./define-command.ts";
import { driftFigures, offerLines, replanWords, sizeWords, whyWords } from "./drift-words.ts";
import { driftWorking } from "./drift-working.ts";
import { withRun } from "./tanks.ts";

/** What is said before the drift: the reading, or what was struck or read anew. */
export type DriftParts = ReplyParts &
  Required<Pick<ReplyParts, "lines" | "facts" | "figures" | "cautions">>;

/**
 * What the readings of a bath lead to, said and done: nothing, a pour-out that moves, or the size
 * of the error and one question.
 *
 * @param run  with its readings as they are to stand
 */
export function driftReply(
  bench: Bench,
  run: Run,
  index: number,
  weighed: Result<Settled, DriftError>,
  base: DriftParts,
  now: Instant,
): Outcome {
  const working = driftWorking(bench, run, index, weighed);
  if (!weighed.ok) {
    const lines = [explainDrift(weighed.error), ...offLaw(weighed.error)];
    return withRun(
      bench,
      noted(run, now, lines[0] ?? ""),
      answer({
        ...base,
        lines: [...base.lines, ...lines],
        facts: { ...base.facts, drift: "outside" },
        working,
      }),
    );
  }
  const decision = weighed.value;
  const parts = {
    ...base,
    working,
    figures: { ...base.figures, ...driftFigures(decision) },
    facts: { ...base.facts, drift: decision.kind },
  };
  if (decision.kind === "nothing") return withRun(bench, run, answer(parts));
  const late = pouringOut(run, index, now);
  return decision.kind === "replan" && !late
    ? replanned(bench, run, index, decision, parts, now)
    : stated(bench, run, index, decision, late, parts, now);
}

/** While one reading lies outside the law nothing can be worked out: a slip can be struck. */
const offLaw = (error: DriftError): readonly string[] =>
  error.kind === "outside-law"
    ? ["While it stands I work out no drift in this bath. A slip? Say strike that reading."]
    : [];

/** The sheet allows it: the pour-out moves, it is said once and stands in the record. */
function replanned(
  bench: Bench,
  run: Run,
  index: number,
  decision: Extract<Settled, { kind: "replan" }>,
  parts: DriftParts,
  now: Instant,
): Outcome {
  const words = replanWords(decision);
  const how = `${words.title}; ${sizeWords(decision.size)} if it had been kept`;
  const moved = moveEnd(run, index, decision.time, how, now);
  const stage = moved.stages[index];
  const clock =
    stage?.pourAt === undefined ? undefined : stageClock(stage, stage.pourAt, moved.window);
  const lines = [
    ...parts.lines,
    ...(clock === undefined
      ? []
      : [
          `Pour out at ${clockTime(clock.pourOut, bench.zone)}, over at ${clockTime(clock.end, bench.zone)}: ${showDuration(decision.time)}.`,
        ]),
    `Kept to the plan it would be ${sizeWords(decision.size)}.`,
  ];
  return withRun(
    bench,
    moved,
    answer({
      ...parts,
      title: `${parts.title.replace(/\.$/, "")}: ${words.title}.`,
      say: `${run.tank}: ${words.say}`,
      lines,
      cautions: [...parts.cautions, ...(decision.caution === undefined ? [] : [decision.caution])],
    }),
  );
}

/** The size of the error and what can be done; the person chooses, once for each departure. */
function stated(
  bench: Bench,
  run: Run,
  index: number,
  decision: Exclude<Settled, { kind: "nothing" }>,
  late: boolean,
  parts: DriftParts,
  now: Instant,
): Outcome {
  const stage = run.stages[index];
  const why = late || decision.kind === "replan" ? "already-out" : decision.why;
  const lines = [
    ...parts.lines,
    `Kept to the plan it is ${sizeWords(decision.size)}.`,
    whyWords[why],
  ];
  const cautions = [
    ...parts.cautions,
    ...(decision.caution === undefined ? [] : [decision.caution]),
  ];
  const told = { ...parts, lines, cautions };
  if (stage === undefined || isAnswered(run, index, decision)) {
    const text = `drift in the ${stage?.bath ?? "bath"}: ${sizeWords(decision.size)}`;
    return withRun(bench, noted(run, now, text), answer(told));
  }
  const offers = late || decision.kind === "replan" ? (["keep", "log"] as const) : decision.offers;
  const words: Record<Offer, string> = {
    keep: "keep",
    adjust: "adjust a little",
    log: "log as fault",
  };
  return withRun(
    bench,
    run,
    askFor(
      "temperature",
      { temperature: 0, tank: run.tank, stage: index },
      "choice",
      `${parts.title} ${offers.length === 3 ? "Keep, adjust a little, or log as fault" : "Keep, or log as fault"}?`,
      offers.map((offer) => ({ word: words[offer], value: offer })),
      {
        ...told,
        lines: [...lines, ...offerLines(offers, decision, stage.time)],
        say: `${parts.say.replace(/\.$/, "")}. ${offers.length === 3 ? "Keep, adjust a little, or log?" : "Keep or log?"}`,
      },
    ),
  );
}
