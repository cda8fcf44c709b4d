import type { Bench } from "../domain/session/bench.ts";
import { keepApart, type Placed } from "../domain/session/keep-apart.ts";
import { clockTime, isoInstant } from "../domain/timing/clock-text.ts";
import { explainStagger } from "../domain/timing/stagger.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { sayDuration, showDuration } from "../domain/units/show.ts";
import { cue, type Json, type Reply } from "../reply/reply.ts";
import type { Outcome } from "./define-command.ts";

/** "South is put off 40 s: North pours out developer at 19:33:45. It pours at 19:34:10." */
function movedLine({ run, found }: Placed, zone: string): string {
  const why = explainStagger(found, run.tank, zone) ?? "";
  const pourAt = run.stages[0]?.pourAt;
  const then = pourAt === undefined ? "" : ` It pours at ${clockTime(pourAt, zone)}.`;
  return found.kind === "no-room" ? `${run.tank}: ${why}` : `${run.tank} is ${why}${then}`;
}

const delayOf = ({ found }: Placed): number => (found.kind === "delay" ? found.delay : 0);

const movedJson = (one: Placed): Json => ({
  tank: one.run.tank,
  put_off_s: delayOf(one),
  first_pour: isoInstant(one.run.stages[0]?.pourAt ?? one.run.plannedAt),
});

/** Fits into the same breath, or is left for the eye. */
function saidWith(say: string, { run, found }: Placed): string {
  if (found.kind === "no-room") return say;
  const longer = `${say} ${run.tank} put off ${sayDuration(found.delay)}.`;
  return longer.split(" ").length > 12 ? say : longer;
}

/**
 * What a command did to the runs may make two pours of one person meet: runs that have not begun
 * give way, and the reply says so. A run for which there is no room is said once.
 */
export function keptApart(before: Bench, outcome: Outcome, now: Instant): Outcome {
  const after = outcome.bench;
  if (after === undefined) return outcome;
  if (after.runs === before.runs && after.serving === before.serving) return outcome;
  const { bench, moved, stuck } = keepApart(after, now);
  const known = new Set(
    stuck.length === 0 ? [] : keepApart(before, now).stuck.map(({ run }) => run.id),
  );
  const fresh = stuck.filter(({ run }) => !known.has(run.id) && before.runs[run.id] !== undefined);
  if (moved.length === 0 && fresh.length === 0) return outcome;
  const { reply } = outcome;
  return {
    ...outcome,
    bench,
    reply: {
      ...reply,
      say: moved.reduce(saidWith, reply.say),
      lines: [...reply.lines, ...moved.map((one) => movedLine(one, bench.zone))],
      cautions: [...reply.cautions, ...fresh.map((one) => movedLine(one, bench.zone))],
      facts: moved.length === 0 ? reply.facts : { ...reply.facts, moved: moved.map(movedJson) },
    },
  };
}

/** The same where the clock alone moved a run on: each run that gives way is told by a cue. */
export function apartByClock(
  before: Bench,
  now: Instant,
): { readonly bench: Bench; readonly replies: readonly Reply[] } {
  const { bench, moved } = keepApart(before, now);
  const replies = moved.map((one) => {
    const { tank, stages } = one.run;
    const by = showDuration(delayOf(one) as Parameters<typeof showDuration>[0]);
    const pourAt = stages[0]?.pourAt ?? now;
    const title = `${tank}: put off ${by}, pour at ${clockTime(pourAt, bench.zone)}.`;
    return cue({
      title,
      say: `${tank}: put off ${sayDuration(delayOf(one) as Parameters<typeof sayDuration>[0])}.`,
      lines: [movedLine(one, bench.zone)],
      facts: { tank, cue: "put-off", first_pour: isoInstant(pourAt) },
      figures: {
        put_off_s: {
          value: delayOf(one),
          origin: { kind: "computed", source: "the smallest delay without a collision" },
        },
      },
    });
  });
  return { bench, replies };
}
