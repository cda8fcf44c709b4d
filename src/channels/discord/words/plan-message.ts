import { planLines } from "../../../commands/run-lines.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import type { Run } from "../../../domain/session/run.ts";
import { planned } from "../../../domain/timing/stage-clock.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { cleanOutgoing } from "./clean-outgoing.ts";
import { type MessagePayload, payload } from "./message-payload.ts";
import { packLines } from "./split-text.ts";
import { clockMark } from "./time-marks.ts";

export type RunContext = { readonly bench: Bench; readonly benchKey: string };

/**
 * The whole plan of a run, so that a wall clock can finish the job: every pour and pour-out in the
 * time of whoever reads it, and below it, in small print, the plan in the bench's own zone. Without
 * buttons: those of the live message below it are of the moment.
 */
export function planMessage(
  run: Run,
  now: Instant,
  { bench }: Pick<RunContext, "bench">,
): readonly MessagePayload[] {
  const plain = planLines(bench, run, now);
  const stages = run.stages.flatMap((stage, index) => {
    const clock = planned(run, now)[index];
    return clock === undefined ? [] : [{ bath: stage.bath, clock }];
  });
  const lines = stages.map(({ bath, clock }, index) =>
    [
      `${clockMark(clock.pour)} pour ${cleanOutgoing(bath)}; pour out ${clockMark(clock.pourOut)}`,
      `-# ${cleanOutgoing(plain[index] ?? "")}`,
    ].join("\n"),
  );
  const title = `**${cleanOutgoing(`${run.tank}: ${run.title}, clock times`)}**`;
  const below = [bench.zone, ...plain.slice(stages.length)];
  const texts = packLines([title, ...lines, ...below.map((line) => `-# ${cleanOutgoing(line)}`)]);
  return texts.map((text) => payload(text));
}
