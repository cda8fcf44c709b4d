import { z } from "zod";
import { thenAsk } from "../src/commands/after-run.ts";
import { askFor, confirm, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import { readBack, unconfirmed } from "../src/commands/read-back.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { correctCount } from "../src/domain/session/count-film.ts";
import { latestRun } from "../src/domain/session/find-run.ts";
import type { Run } from "../src/domain/session/run.ts";
import { type Instant, secondsBetween, units } from "../src/domain/units/quantity.ts";
import { plain, showUnits } from "../src/domain/units/show.ts";
import { answer, question, type Reply, refuse } from "../src/reply/reply.ts";

const MOST = 500;

export const countCommand = defineCommand({
  name: "count",
  summary: "Confirm or correct how much film a bottle has done.",
  topic: "bottle",
  sentences: [
    "[is] [the] count [is] {sure}",
    "{bottle} count is {sure}",
    "[the] count (of|for|on) {bottle} is {sure}",
    "(confirm|check) [the] count (of|for|on) {bottle}",
    "(confirm|check) {bottle} count",
    "(confirm|check) [the] count",
    "(set|correct|change) [the] count [of|for|on] {bottle} [to|at] {used} [roll|rolls|unit|units|in all]",
    "(set|correct|change) {bottle} (to|at) {used} (roll|rolls|unit|units)",
    "{bottle} (has done|did|has had|is at|stands at) {used} (roll|rolls|unit|units|in all)",
  ],
  slots: { used: "count", sure: "yes" },
  examples: ["count is right", "Acorn has done 6 rolls"],
  fields: z.object({
    run: z.string().optional(),
    bottle: z.string().optional(),
    used: z
      .number()
      .min(0, "Film done cannot be below zero. Say how many rolls it has done in all.")
      .max(MOST, `No bottle does ${MOST} rolls. Say how many it has done in all.`)
      .optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    bottle: "the bottle corrected",
    units: "film it has done in all now, units of 80 sq in",
    before_units: "what stood there before",
    confirmed: "true when counts of ended runs are confirmed",
    bottles: "bottles confirmed or corrected, by name",
  },
  run({ bench, now }, { run: id, bottle, used, sure }) {
    const open = id === undefined ? openCounts(bench, bottle) : [];
    const run =
      id === undefined ? (open.at(-1) ?? lastCounted(bench, bottle)) : ownValue(bench.runs, id);
    if (bottle !== undefined && used !== undefined) {
      const corrected = correct(bench, id === undefined ? undefined : run, bottle, used, sure);
      return id === undefined || !("bench" in corrected)
        ? corrected
        : goOn(corrected.bench, id, now, corrected.reply);
    }
    const back = run === undefined ? undefined : readBack(bench, run);
    if (run === undefined || run.counted.length === 0) {
      return refuse(
        "nothing-counted",
        "No film is counted that I could confirm. Say Acorn has done 6 rolls to set a bottle's count.",
        { say: "No film is counted to confirm." },
      );
    }
    const runs = open.length > 0 ? open : [run];
    const ids = new Set(runs.flatMap(({ counted }) => counted.map((entry) => entry.bottle)));
    const names = [...ids].map((one) => ownValue(bench.bottles, one)?.name ?? one);
    if (sure === undefined && runs.length > 1) {
      const sums = names.length === 0 ? "" : [...ids].map((one) => sumOf(bench, one)).join("; ");
      const fields = bottle === undefined ? {} : { bottle };
      return confirm(
        "count",
        fields,
        "sure",
        `${runs.length} runs are unconfirmed. ${sums}. Right?`,
      );
    }
    if (sure === undefined && back !== undefined) {
      return question(back.ask, back.title, { say: back.say });
    }
    if (sure === false) {
      const first = run.counted[0];
      if (first === undefined) return refuse("nothing-counted", "No film is counted.");
      const name = ownValue(bench.bottles, first.bottle)?.name ?? "it";
      return askFor(
        "count",
        { run: run.id, bottle: first.bottle },
        "used",
        `How many rolls has ${name} done in all, tonight's included?`,
        undefined,
        { lines: ["Nothing went in at all? Say nothing went in."] },
      );
    }
    const sealed = runs.map((one) => [one.id, { ...one, countConfirmed: true }] as const);
    const after = { ...bench, runs: { ...bench.runs, ...Object.fromEntries(sealed) } };
    const reply = answer({
      title: `The count is confirmed for ${names.join(", ")}${runs.length > 1 ? `, ${runs.length} runs` : ""}.`,
      say: "The count is confirmed.",
      facts: { confirmed: true, bottles: names },
    });
    // Said of one run without being asked, it is the same word: what else is open follows.
    const only = runs.length === 1 && isJustOver(run, now) ? run.id : undefined;
    const asked = id ?? only;
    return asked === undefined ? { bench: after, reply } : goOn(after, asked, now, reply);
  },
});

/** The count was asked about at the end of a run: its other questions follow. */
function goOn(bench: Bench, id: string, now: Instant, reply: Reply): Outcome {
  const run = ownValue(bench.runs, id);
  return { bench, reply: run === undefined ? reply : thenAsk(bench, run, now, reply) };
}

/** Later, s, nobody thinks of the run any more: its questions wait for "wrap up". */
const JUST = 2 * 3600;

const isJustOver = ({ endedAt }: Run, now: Instant): boolean =>
  endedAt !== undefined && secondsBetween(endedAt, now) < JUST;

/** Runs that counted film nobody has confirmed, oldest first; those of one bottle where it is named. */
const openCounts = (bench: Bench, bottle: string | undefined): readonly Run[] =>
  Object.values(bench.runs).filter(
    (run) => run.countConfirmed !== true && counts(run, bottle) && run.nothingIn !== true,
  );

const counts = ({ counted }: Run, bottle: string | undefined): boolean =>
  bottle === undefined ? counted.length > 0 : counted.some((entry) => entry.bottle === bottle);

const lastCounted = (bench: Bench, bottle: string | undefined): Run | undefined => {
  const last = latestRun(bench);
  if (bottle === undefined) return last;
  return Object.values(bench.runs).findLast((run) => counts(run, bottle));
};

const sumOf = (bench: Bench, id: string): string => {
  const found = ownValue(bench.bottles, id);
  return `${found?.name ?? id} ${plain(unconfirmed(bench, id), 2)} of ${showUnits(found?.used ?? units(0))}`;
};

function correct(
  bench: Bench,
  run: Run | undefined,
  id: string,
  used: number,
  sure: boolean | undefined,
): Reply | { bench: Bench; reply: Reply } {
  const bottle = ownValue(bench.bottles, id);
  if (bottle === undefined) return refuse("no-such-bottle", "I know no such bottle. Say bottles.");
  const before = bottle.used;
  // A lower count makes a bath look younger than I believed: that is asked about.
  if (used < before && sure === undefined && run === undefined) {
    return confirm(
      "count",
      { bottle: id, used },
      "sure",
      `I have counted ${plain(before, 2)} for ${bottle.name}. ${plain(used, 2)} instead?`,
    );
  }
  if (sure === false) {
    return answer({
      title: `Then ${bottle.name} stays at ${plain(before, 2)}.`,
      say: "Then the count stays.",
    });
  }
  const after = correctCount(bench, run?.id, id, units(used));
  const others = (run?.counted ?? [])
    .filter(({ bottle: other }) => other !== id)
    .map(({ bottle: other }) => ownValue(after.bottles, other)?.name ?? other);
  return {
    bench: after,
    reply: answer({
      title: `${bottle.name} has done ${showUnits(units(used))} in all.`,
      lines: [
        `Before: ${plain(before, 2)}.`,
        ...(others.length === 0 ? [] : [`${others.join(" and ")} by the same difference.`]),
      ],
      say: `${bottle.name} has done ${plain(used, 2)} in all.`,
      figures: {
        units: { value: used, origin: { kind: "told" } },
        before_units: { value: before, origin: { kind: "own log" } },
      },
      facts: { bottle: bottle.name, bottles: [bottle.name, ...others] },
    }),
  };
}
