import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { calledTank } from "../src/commands/run-lines.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { latestRun, liveRuns } from "../src/domain/session/find-run.ts";
import { standing } from "../src/domain/session/hear.ts";
import { type LightSafety, lightSafety } from "../src/domain/session/light-safe.ts";
import type { Run } from "../src/domain/session/run.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { type Instant, secondsBetween } from "../src/domain/units/quantity.ts";
import { showDuration } from "../src/domain/units/show.ts";
import { answer, oneBreath } from "../src/reply/reply.ts";

/** Film of a run that ended this long ago may still be in its tank, s (own bound, no source). */
const STILL_IN = 2 * 3600;

const LID = "Room light is fine only with the light-trap tube in and the lid locked.";
const CLOCK = "To end only the clock say stop; the bath works on, and what is not fixed stays so.";

const wish =
  "(open [the] (tank|lid|it) [up]|open up|look [(in|into|inside) [the] [tank]]|peek [in]|take [the] (lid|top) off|take off the lid|remove the lid|lift the lid|(turn|switch|put) [the] (light|lights|lamp) on|(turn|switch|put) on [the] (light|lights|lamp)|have [the] light|(look at|see|check|inspect|take out|unspool|show) [the|my] (film|negatives|negs|reel|reels)|take [the] (film|reel|reels) out|stop [it|[the] {bath}] [here|already|early])";

export const lightSafeCommand = defineCommand({
  name: "light safe",
  summary: "Whether the tank may be opened and the light go on, by what the film has had.",
  topic: "run",
  sentences: [
    `((can|may|could|should|must) (i|we) [safely|already]|is it [already] (safe|ok|fine|all right|too early) to|when (can|may|could) (i|we)|when is it (safe|ok) to) ${wish} [yet|already|safely|quickly|for a second|for a moment]`,
    "can [the] (light|lights) (go|be|come) on [yet|already]",
    "is [the] film (light safe|safe|fixed) [yet|already]",
    "is (it|light|room light) (light safe|safe|ok|fine) [yet|already]",
  ],
  examples: ["can i open the tank", "is it safe to turn the lights on"],
  fields: z.object({ bath: z.string().optional() }),
  changes: false,
  aside: true,
  values: {
    tanks:
      "one entry a tank: tank, bath (null where none is in), safety (fixed, reversed, unsure, unfixed)",
  },
  run({ bench, now }) {
    const runs = runsWithFilm(bench, now);
    const told = runs.map((run) => verdictOf(bench, run, now));
    const [first] = told;
    if (first === undefined) {
      return answer({
        title: "I know of no film in a tank. Film that is not fixed stays in the dark.",
        lines: [LID],
        say: "I know of no wet film. Unfixed film stays dark.",
        facts: { tanks: [] },
      });
    }
    // The most careful word is the one that is heard.
    const worst = told.find(({ isSafe }) => !isSafe) ?? first;
    return answer({
      title: worst.title,
      lines: [
        ...worst.lines,
        ...told.filter((one) => one !== worst).flatMap(({ title, lines }) => [title, ...lines]),
        ...(worst.isSafe ? [] : liveRuns(bench).length > 0 ? [LID, CLOCK] : [LID]),
      ],
      say: worst.say,
      facts: { tanks: told.map(({ fact }) => fact) },
    });
  },
});

/** Runs with film in their tanks: those that go on, or the last one for a while after its end. */
function runsWithFilm(bench: Bench, now: Instant): readonly Run[] {
  const live = liveRuns(bench);
  if (live.length > 0) return live;
  const last = latestRun(bench);
  const ended = last?.endedAt;
  if (last === undefined || ended === undefined || last.nothingIn === true) return [];
  return secondsBetween(ended, now) <= STILL_IN ? [last] : [];
}

function verdictOf(bench: Bench, run: Run, now: Instant) {
  const safety = lightSafety(run, Object.values(bench.runs), now);
  const isSafe = safety.kind === "fixed" || safety.kind === "reversed";
  const bath = bathNow(run, now);
  const called = calledTank(run);
  const where = bath === undefined ? whereElse(run, now) : `the film is in ${bath}`;
  const fact = { tank: run.tank, bath: bath ?? null, safety: safety.kind };
  if (isSafe) {
    return {
      isSafe,
      fact,
      title: `${called}: ${safeTitle(safety)}, ${where}. Light usually does it no harm now.`,
      lines: safeLines(safety),
      say: oneBreath(`${called}: light is usually fine now, by my log.`),
    };
  }
  return {
    isSafe,
    fact,
    title: `No. ${called}: ${where}, and it is ${safety.kind === "unsure" ? "not sure to be fixed" : "not fixed"}. The lid stays on.`,
    lines: darkLines(bench, safety),
    say: oneBreath(
      bath === undefined
        ? `No. ${called}: film is not fixed. Lid stays on.`
        : `No. ${called}: film is in ${bath}. Lid stays on.`,
    ),
  };
}

function bathNow(run: Run, now: Instant): string | undefined {
  const at = standing(run, now);
  return at.kind === "in" ? at.stage.bath : undefined;
}

function whereElse(run: Run, now: Instant): string {
  const at = standing(run, now);
  const before = run.stages.findLast(
    ({ inAt, outAt }) => inAt !== undefined && outAt !== undefined,
  );
  if (at.kind === "over" || before !== undefined) {
    return before === undefined ? "no bath was in" : `the film had ${before.bath} last`;
  }
  return at.kind === "pouring" ? `${at.stage.bath} is being poured` : "no bath has been in";
}

function safeTitle(safety: LightSafety): string {
  if (safety.kind === "fixed") {
    return `${safety.bath} had ${showDuration(safety.had)} of ${showDuration(safety.time)}`;
  }
  return "the reversal bath had its minute";
}

const safeLines = ({ kind }: LightSafety): readonly string[] =>
  kind === "reversed"
    ? ["After one minute in the reversal bath room light is safe [SS0514, p. 4-3, read]."]
    : [
        "After a whole fix film may see light [common practice, no source]; your sheet outranks me.",
        "Milky or cloudy? Lid back on and fix longer. Wash and last bath are still to come.",
      ];

function darkLines({ zone }: Bench, safety: LightSafety): readonly string[] {
  if (safety.kind === "unsure") {
    return [
      safety.heard
        ? `The ${safety.bath} was shorter than its time: fix again before any light.`
        : `Nobody told me that the ${safety.bath} went in. If it did and had its time, the film is fixed [common practice, no source].`,
    ];
  }
  if (safety.kind !== "unfixed") return [];
  const { bath, after } = safety;
  return bath === undefined || after === undefined
    ? ["No fixer or blix is in this plan: the film is unfixed at its end, too."]
    : [`By the plan ${bath} is over at ${clockTime(after, zone)}; until then, dark.`];
}
