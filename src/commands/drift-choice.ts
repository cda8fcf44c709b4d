import type { Bench } from "../domain/session/bench.ts";
import { moveEnd, noted, pouringOut, weighAnew } from "../domain/session/drift-run.ts";
import { type Run, withStage } from "../domain/session/run.ts";
import type { Offer } from "../domain/temperature/compensate.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { stageClock } from "../domain/timing/stage-clock.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { answer, refuse } from "../reply/reply.ts";
import type { Outcome } from "./define-command.ts";
import { driftFigures, sizeWords } from "./drift-words.ts";
import { driftWorking } from "./drift-working.ts";
import { withRun } from "./tanks.ts";

/** The answer to the question about a departure: done and logged. */
export function chosenReply(
  bench: Bench,
  run: Run,
  index: number,
  choice: Offer,
  now: Instant,
): Outcome {
  const stage = run.stages[index];
  const weighed = weighAnew(run, index, now);
  if (stage === undefined || weighed?.ok !== true) {
    return { reply: refuse("nothing-to-choose", "There is no departure to decide about.") };
  }
  const decision = weighed.value;
  const size = sizeWords(decision.size);
  const answered = withStage(run, index, {
    driftAnswer: { choice, band: decision.band, off: decision.drift.worst, at: now },
  });
  const facts = { tank: run.tank, bath: stage.bath, choice };
  const figures = driftFigures(decision);
  const caution =
    decision.kind === "nothing" || decision.caution === undefined ? [] : [decision.caution];
  if (choice === "adjust") {
    const adjusted = decision.kind === "state" ? decision.adjusted : undefined;
    if (adjusted === undefined || pouringOut(run, index, now)) {
      return {
        reply: refuse("too-late", `${run.tank}: it is too late to move the ${stage.bath}'s end.`, {
          facts,
        }),
      };
    }
    const how = `adjusted a little, by your word: ${showDuration(adjusted)} instead of ${showDuration(stage.time)}; ${size}`;
    const moved = moveEnd(answered, index, adjusted, how, now);
    const after = moved.stages[index] ?? stage;
    const pourOut = stageClock(after, after.pourAt ?? now, run.window).pourOut;
    return withRun(
      bench,
      moved,
      answer({
        title: `${run.tank}: ${stage.bath} ${showDuration(adjusted)} instead of ${showDuration(stage.time)}, pour out at ${clockTime(pourOut, bench.zone)}.`,
        say: `${run.tank}: pour out at ${clockTime(pourOut, bench.zone)}.`,
        lines: ["It stands in the record."],
        cautions: caution,
        facts,
        working: driftWorking(bench, run, index, weighed),
        figures: { ...figures, time_s: { value: adjusted, origin: { kind: "told" } } },
      }),
    );
  }
  const fault = choice === "log";
  const text = fault
    ? `fault, ${stage.bath} off its temperature: ${size}`
    : `kept the time of ${stage.bath}, by your word: ${size}`;
  return withRun(
    bench,
    noted(answered, now, text),
    answer({
      title: `${run.tank}: ${stage.bath} stays at ${showDuration(stage.time)}${fault ? ", logged as a fault" : ""}.`,
      say: fault ? "Logged as a fault. The time stands." : "The time stands.",
      lines: [`In the record: ${size}.`],
      facts,
      figures,
      working: driftWorking(bench, run, index, weighed),
    }),
  );
}
