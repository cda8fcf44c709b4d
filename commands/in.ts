import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { changeOfClocks } from "../src/commands/run-lines.ts";
import { runMeant, tankAt, withTank } from "../src/commands/tanks.ts";
import { showOrigin } from "../src/domain/origin.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { countFilm } from "../src/domain/session/count-film.ts";
import { settledChange } from "../src/domain/session/follow-bottles.ts";
import { isLateIn, pouredIn, standing } from "../src/domain/session/hear.ts";
import type { Run } from "../src/domain/session/run.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { justAfter } from "../src/domain/timing/cues.ts";
import { firstAgitation, stageClock } from "../src/domain/timing/stage-clock.ts";
import { type Instant, instant } from "../src/domain/units/quantity.ts";
import { sayDuration, showDuration } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

/** A word of the bath before cannot begin this one sooner than the other went out. */
function notBeforeOut({ stages, current }: Run, heardAt: Instant): Instant {
  const outs = stages.slice(0, current).flatMap(({ outAt }) => outAt ?? []);
  return instant(Math.max(heardAt, ...outs));
}

/** What came due since the word is behind us, but for a pouring out, which is told late. */
function toldUntil(run: Run, now: Instant): Instant {
  const stage = run.stages[run.current];
  if (stage?.inAt === undefined) return justAfter(now);
  const { pourOut } = stageClock(stage, stage.pourAt ?? now, run.window);
  return pourOut <= now ? pourOut : justAfter(now);
}

export const inCommand = defineCommand({
  name: "in",
  summary: "The tank is full: the time counts from now.",
  topic: "run",
  sentences: [
    ...withTank(
      "(in|inn|it is in|is in|poured|poured in|poured it [in]|done pouring|all in|it is all in|[the] tank [is] full)",
    ),
    "[the] {solution} [is] in [[in] tank {tank}]",
  ],
  slots: { sure: "yes" },
  examples: ["in", "north in"],
  fields: z.object({
    tank: z.string().optional(),
    solution: z.string().optional(),
    sure: z.boolean().optional(),
    /** When the word was said that the question is about. */
    heardAt: z.number().transform(instant).optional(),
  }),
  changes: true,
  values: {
    tank: "tank",
    bath: "the bath that is in",
    time_s: "its time, s",
    pour_out: "ISO instant of the pour-out cue",
    end: "ISO instant of its end",
    agitate_for_s: "first agitation, s",
  },
  run({ bench, now, saidAt }, { tank, solution, sure, heardAt = saidAt }) {
    const meant = runMeant(bench, tankAt(bench, tank, solution), "in");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const at = standing(run, now);
    if (at.kind === "over") return refuse("over", `${run.tank} is over.`);
    if (at.kind === "in") {
      const since =
        at.stage.inAt === undefined ? "" : ` since ${clockTime(at.stage.inAt, bench.zone)}`;
      if (at.stage.plusMinus === undefined) {
        return refuse(
          "already-in",
          `${at.stage.bath} is in${since}, ${showDuration(at.gone)} ago.`,
          {
            say: `The ${at.stage.bath} is in already.`,
          },
        );
      }
      if (isLateIn(run, heardAt) && sure === undefined) {
        return confirm(
          "in",
          { tank: run.tank, heardAt },
          "sure",
          `I have counted ${at.stage.bath}${since}. Count from now instead?`,
        );
      }
      if (sure === false) {
        return answer({ title: `Then ${at.stage.bath} counts${since}.`, say: "Then I count on." });
      }
    }
    const from = notBeforeOut(run, heardAt);
    const begun = pouredIn(run, from);
    const poured = { ...begun, cuedUntil: toldUntil(begun, now) };
    const counted = countFilm({ ...bench, runs: { ...bench.runs, [run.id]: poured } }, run.id);
    const settled = ownValue(counted.runs, run.id) ?? poured;
    const stage = settled.stages[settled.current] ?? at.stage;
    const changed = settledChange(poured, settled);
    const clock = stageClock(stage, stage.pourAt ?? now, run.window);
    const first = stage.agitation === undefined ? undefined : firstAgitation(stage);
    const agitate = first === undefined || first === 0 ? "" : ` Agitate ${sayDuration(first)}.`;
    const said = `${stage.bath} in.${agitate}`;
    return {
      bench: counted,
      reply: answer({
        title: `${run.tank}: ${stage.bath} in at ${clockTime(stage.inAt ?? now, bench.zone)}.${agitate}`,
        lines: [
          `Pour out at ${clockTime(clock.pourOut, bench.zone)}, over at ${clockTime(clock.end, bench.zone)} (${stage.sense === "exact" ? "exactly" : "at least"} ${showDuration(stage.time)}).`,
          ...changeOfClocks(bench, [clock], stage.inAt ?? now),
          ...(changed === undefined ? [] : [changed]),
          ...(agitate === "" ? [] : ["Tap it against bubbles first."]),
        ],
        say:
          changed === undefined
            ? said
            : `${stage.bath} in, now ${sayDuration(stage.time)}.${agitate}`,
        figures: {
          time_s: { value: stage.time, origin: stage.timeOrigin },
          pour_out: {
            value: Temporal.Instant.fromEpochMilliseconds(clock.pourOut).toString(),
            origin: { kind: "computed", source: "end less the drain" },
          },
          end: {
            value: Temporal.Instant.fromEpochMilliseconds(clock.end).toString(),
            origin: { kind: "computed", source: "in plus the time" },
          },
          ...(first === undefined || stage.agitation === undefined
            ? {}
            : { agitate_for_s: { value: first, origin: stage.agitation.origin } }),
        },
        facts: { tank: run.tank, bath: stage.bath },
        working: [
          `${stage.bath}: ${showDuration(stage.time)}; ${showOrigin(stage.timeOrigin)}.`,
          ...(stage.corrections ?? []).map(({ kind, how }) => `  ${kind}: ${how}`),
          `Pouring out begins ${showDuration(stage.drain)} before the end, inside the time; ${showOrigin(stage.drainOrigin)}.`,
          ...(stage.agitation === undefined
            ? []
            : [`Agitation; ${showOrigin(stage.agitation.origin)}.`]),
        ],
      }),
    };
  },
});
