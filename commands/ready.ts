import { z } from "zod";
import { confirm, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import { bathWithBottle, standingLine } from "../src/commands/run-lines.ts";
import { runMeant, withRun, withTank } from "../src/commands/tanks.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { openWindow, standing } from "../src/domain/session/hear.ts";
import { placeReady } from "../src/domain/session/keep-apart.ts";
import type { Run } from "../src/domain/session/run.ts";
import { clockTime, isoInstant } from "../src/domain/timing/clock-text.ts";
import { explainStagger, maybeMoved } from "../src/domain/timing/stagger.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { sayDuration } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const readyCommand = defineCommand({
  name: "ready",
  summary: "Open the pour window now.",
  topic: "run",
  sentences: withTank("(ready|go|pour|pouring|i am ready)"),
  examples: ["ready", "north ready"],
  slots: { sure: "yes" },
  fields: z.object({ tank: z.string().optional(), sure: z.boolean().optional() }),
  changes: true,
  values: {
    tank: "tank",
    bath: "the bath to pour now",
    put_off_s: "by how much its first pour is put off for other tanks, s; missing when it is not",
    first_pour: "ISO instant of the first pour, where it is put off",
  },
  run({ bench, now }, { tank, sure }) {
    const meant = runMeant(bench, tank, "ready");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const at = standing(run, now);
    if (at.kind === "in") {
      return refuse("already-in", standingLine(bench, run, now), {
        say: `The ${at.stage.bath} is in already.`,
        lines: ["Say out when it leaves, or left for the time."],
      });
    }
    if (at.kind === "over") return refuse("over", `${run.tank} is over.`);
    if (sure === false) {
      const then = at.kind === "planned" && at.pourAt !== undefined ? at.pourAt : undefined;
      const when = then === undefined ? "when you say ready" : `at ${clockTime(then, bench.zone)}`;
      return answer({ title: `Then ${run.tank} pours ${when}.`, say: "Then I wait." });
    }
    if (at.kind === "planned" && sure === undefined && maybeMoved(run, now)) {
      const later = laterFirst(bench, openWindow(run, now), now);
      if (later !== undefined) return later;
    }
    const opened = at.kind === "pouring" ? run : openWindow(run, now);
    return withRun(
      bench,
      opened,
      answer({
        title: `${run.tank}: pour ${bathWithBottle(bench, at.stage)}.`,
        lines: ["Say in the moment the tank is full: the time counts from then."],
        say: `Pour ${at.stage.bath}. Say in when full.`,
        facts: { tank: run.tank, bath: at.stage.bath },
      }),
    );
  },
});

/** Another tank that is wet needs the same hands: put off, and asked whether it shall be now. */
function laterFirst(bench: Bench, opened: Run, now: Instant): Outcome | undefined {
  const { run, found } = placeReady(bench, opened, now);
  const why = explainStagger(found, run.tank, bench.zone);
  if (why === undefined) return undefined;
  const firstPour = run.stages[0]?.pourAt ?? now;
  if (found.kind === "no-room") {
    return {
      reply: confirm("ready", { tank: run.tank }, "sure", `${why} Pour now all the same?`, {
        say: "No room for one pair of hands. Pour all the same?",
      }),
    };
  }
  const delay = found.delay;
  return withRun(
    bench,
    { ...run, cuedUntil: now },
    confirm(
      "ready",
      { tank: run.tank },
      "sure",
      `${run.tank} ${why} It pours at ${clockTime(firstPour, bench.zone)}. Pour now all the same?`,
      {
        say: `Put off ${sayDuration(delay)}. Pour now all the same?`,
        facts: { tank: run.tank, first_pour: isoInstant(firstPour) },
        figures: {
          put_off_s: {
            value: delay,
            origin: { kind: "computed", source: "the smallest delay without a collision" },
          },
        },
      },
    ),
  );
}
