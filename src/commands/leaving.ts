import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { countFilm } from "../domain/session/count-film.ts";
import {
  awaitsEnd,
  awaitsOut,
  confirmEnd,
  confirmOut,
  pouredOut,
  standing,
} from "../domain/session/hear.ts";
import type { Run } from "../domain/session/run.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { seconds } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { answer, question, type Reply, refuse } from "../reply/reply.ts";
import { thenAsk } from "./after-run.ts";
import { askFor, confirm, type Outcome } from "./define-command.ts";
import { readBack } from "./read-back.ts";
import { bathWithBottle } from "./run-lines.ts";

/** Leaving an exact bath, or a minimum one, this much early is asked about, s. */
const EARLY = 15;

/** Film leaves the present bath: what `out` and `next` share. Too early is asked about first. */
export function leaveBath(
  bench: Bench,
  run: Run,
  now: Instant,
  command: "out" | "next",
  sure: boolean | undefined,
  which?: string,
): Reply | Outcome {
  const at = standing(run, now);
  if (at.kind === "over") {
    return awaitsEnd(run, now)
      ? left(bench, confirmEnd(run, now), now)
      : refuse("over", `${run.tank} is over.`);
  }
  if (at.kind === "in" && at.stage.plusMinus !== undefined && awaitsOut(run)) {
    // Both the "out" before and the "in" of this bath were only the clock's: which one is it now?
    const before = run.stages.findLast(
      (stage, index) => index < run.current && stage.outByClock === true,
    );
    // Said when this bath is told to leave, it follows the cues, and so did the change before.
    const atItsCue = at.untilPourOut <= 0;
    if (which === undefined && before !== undefined && !atItsCue) {
      return askFor(
        command,
        { tank: run.tank },
        "which",
        `Which bath is out now: ${before.bath} or ${at.stage.bath}?`,
        [before.bath, at.stage.bath],
        { lines: ["I heard no words at the change and counted by the clock."] },
      );
    }
    if (which === before?.bath) return left(bench, confirmOut(run, now), now);
  }
  if (at.kind !== "in" && awaitsOut(run)) return left(bench, confirmOut(run, now), now);
  if (at.kind !== "in") {
    return refuse("not-in", `${at.stage.bath} is not in yet. Say in when the tank is full.`, {
      say: `The ${at.stage.bath} is not in yet.`,
    });
  }
  if (at.untilPourOut > EARLY && sure === undefined) {
    const why = at.stage.sense === "exact" ? "its time is exact" : "its time is a minimum";
    return confirm(
      command,
      { tank: run.tank },
      "sure",
      `${at.stage.bath} has ${showDuration(at.left)} to go and ${why}. Out already?`,
      { say: `${showDuration(at.left)} to go. Out already?` },
    );
  }
  if (sure === false) {
    return answer({ title: `Then ${at.stage.bath} runs on.`, say: "Then it runs on." });
  }
  return left(bench, pouredOut(run, now), now);
}

/** What is said once film has left: how long it was in, and what to pour. */
function left(bench: Bench, run: Run, now: Instant): Outcome {
  const counted = countFilm({ ...bench, runs: { ...bench.runs, [run.id]: run } }, run.id);
  const over = run.endedAt !== undefined;
  const index = run.stages.findLastIndex(
    (stage, i) => stage.outAt !== undefined && stage.skipped !== true && (over || i < run.current),
  );
  const record = run.stages[index];
  if (record === undefined)
    return { bench: counted, reply: refuse("not-in", `${run.tank} is not in.`) };
  const real = record.inAt === undefined ? undefined : seconds((now - record.inAt) / 1000);
  const was = real === undefined ? "" : ` after ${showDuration(real)}`;
  const next = over ? undefined : run.stages[run.current];
  const figures: Reply["figures"] =
    real === undefined ? {} : { real_s: { value: real, origin: { kind: "own log" } } };
  const facts = { tank: run.tank, bath: record.bath, next: next?.bath ?? null };
  const reply =
    next === undefined
      ? lastOut(
          counted,
          ownValue(counted.runs, run.id) ?? run,
          now,
          `${record.bath} out${was}`,
          facts,
          figures,
        )
      : answer({
          title: `${run.tank}: ${record.bath} out${was}. Pour ${bathWithBottle(bench, next)}.`,
          lines: ["Say in when it is full."],
          say: `Out. Pour ${next.bath}, say in when full.`,
          facts,
          figures,
        });
  return { bench: counted, reply };
}

/**
 * After the last bath: what to do with the film, and a question: whether the count is right, or
 * where nothing was counted the first of those about the run.
 */
function lastOut(
  bench: Bench,
  run: Run,
  now: Instant,
  what: string,
  facts: Reply["facts"],
  figures: Reply["figures"],
): Reply {
  const title = `${run.tank}: ${what}. That was the last bath; no clock is running.`;
  const lines = [
    "Hang it with a weight, door shut. Wash each vessel, lids and hands.",
    "Say summary for the record.",
  ];
  const back = readBack(bench, run);
  return back === undefined
    ? thenAsk(
        bench,
        run,
        now,
        answer({ title, lines, say: "Done. No clock is running.", facts, figures }),
      )
    : question(back.ask, `${title} ${back.title}`, { lines, say: back.say, facts, figures });
}
