import { bathWithBottle } from "./run-lines.ts";
import { nextStage } from "../domain/timing/cues.ts";
import type { Bench } from "../domain/session/bench.ts";
import { countFilm } from "../domain/session/count-film.ts";
import { pouredOut, standing } from "../domain/session/hear.ts";
import type { Run } from "../domain/session/run.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { seconds } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { answer, type Reply, refuse } from "../reply/reply.ts";
import { confirm, type Outcome } from "./define-command.ts";

/** Leaving an exact bath, or a minimum one, this much early is asked about, s. */
const EARLY = 15;

/** Film leaves the present bath: what `out` and `next` share. Too early is asked about first. */
export function leaveBath(
  bench: Bench,
  run: Run,
  now: Instant,
  command: "out" | "next",
  sure: boolean | undefined,
): Reply | Outcome {
  const at = standing(run, now);
  if (at.kind === "over") return refuse("over", `${run.tank} is over.`);
  if (at.kind === "planned") {
    return refuse("not-in", `${at.stage.bath} has not been poured. Say ready, then in.`, {
      say: `The ${at.stage.bath} is not in yet.`,
    });
  }
  if (at.kind === "in" && at.untilPourOut > EARLY && sure === undefined) {
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
  const left = pouredOut(run, now);
  const counted = countFilm({ ...bench, runs: { ...bench.runs, [run.id]: left } }, run.id);
  const record = left.stages[run.current];
  const real =
    record?.inAt === undefined ? undefined : seconds((now - record.inAt) / 1000);
  const was = real === undefined ? "" : ` after ${showDuration(real)}`;
  const next = nextStage(run, run.current);
  const figures: Reply["figures"] =
    real === undefined
      ? {}
      : { real_s: { value: real, origin: { kind: "own log" } } };
  const reply =
    next === undefined
      ? answer({
          title: `${run.tank}: ${at.stage.bath} out${was}. That was the last bath; no clock is running.`,
          lines: [
            "Hang it with a weight, door shut. Wash each vessel, lids and hands.",
            "Was anything different today? Say note and tell me. Say summary for the record.",
          ],
          say: "Done. No clock is running. Anything different today?",
          facts: { tank: run.tank, bath: at.stage.bath, next: null },
          figures,
        })
      : answer({
          title: `${run.tank}: ${at.stage.bath} out${was}. Pour ${bathWithBottle(bench, next.stage)}.`,
          lines: ["Say in when it is full."],
          say: `Out. Pour ${next.stage.bath}, say in when full.`,
          facts: { tank: run.tank, bath: at.stage.bath, next: next.stage.bath },
          figures,
        });
  return { bench: counted, reply };
}
