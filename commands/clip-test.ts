import { z } from "zod";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { withBottle } from "../src/commands/bottle-meant.ts";
import { bottleOfBath } from "../src/commands/bottle-of-bath.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { clipTestFor } from "../src/data/clip-tests.ts";
import type { Bottle } from "../src/domain/chemistry/bottle.ts";
import { kindOf } from "../src/domain/chemistry/capacity-left.ts";
import { freshClearing, isSpent } from "../src/domain/chemistry/clip-test.ts";
import { clearSuspect } from "../src/domain/session/suspicion.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { seconds } from "../src/domain/units/quantity.ts";
import { showDuration, showTemperature } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const clipTestCommand = defineCommand({
  name: "clip test",
  summary: "Test a bottle on a bit of leader: the steps, the pass mark, and the result kept.",
  topic: "bottle",
  sentences: [
    "(clip test|leader test|test|drop test) {bottle} [{verdict}]",
    "(clip test|leader test) (of|for|on|with) {bottle} [{verdict}]",
    "[the] (clip test|leader test|test) (of|for|on|with) {bottle} {verdict}",
    "{bottle} {verdict} [the|its] (clip test|test|leader test)",
    "{bottle} (cleared|clears|took) [in] {clearing} [to clear]",
    "(clip test|test) {bottle} {clearing}",
    "[how do i|i want to] (clip test|test) {bottle}",
    "(clip test|leader test) {solution} [{verdict}]",
    "(clip test|leader test) (of|for|on|with) {solution} [{verdict}]",
    "[the] (clip test|leader test) {verdict}",
    "[how do i|i want to|let us] [do|run|make] [a] (clip test|leader test) [(of|for|on|with) ({bottle}|{solution})]",
  ],
  slots: { clearing: "duration", fresh: "duration" },
  examples: ["clip test Acorn", "clip test Acorn passed", "Banjo cleared in 40 seconds"],
  fields: z.object({
    bottle: z.string().optional(),
    solution: z.string().optional(),
    verdict: z.boolean().optional(),
    clearing: z
      .number()
      .min(1, "No fixer clears in no time. Say how many seconds it took.")
      .max(3600, "An hour is no clearing time. That bath is done: say clip test failed.")
      .optional(),
    fresh: z
      .number()
      .min(1, "Say how many seconds it took when it was fresh.")
      .max(3600, "Say how many seconds it took when it was fresh.")
      .optional(),
  }),
  changes: true,
  values: {
    bottle: "its name",
    passed: "true when the test passed; missing before it is done",
    clearing_s: "how long the leader took to clear, s",
    fresh_s: "how long it took when the bath was fresh, s",
    steps: "what to do, in order",
    pass_mark: "what passes",
    source: "where the test comes from",
  },
  run({ bench, now, who }, { bottle: named, solution, verdict, clearing, fresh }) {
    const wanted = { bottle: named, solution, verdict, clearing, fresh };
    const meant = bottleOfBath(bench, wanted, "clip test", "Which bottle?");
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const look = lookNow(bench, bottle, now);
    const test = clipTestFor(kindOf(look));
    const timed = test.measures === "clearing";
    if (verdict === undefined && clearing === undefined) {
      const { time, temperature } = look.bath ?? {};
      const figures =
        time === undefined
          ? []
          : [
              `Your sheet: ${showDuration(time.value)}${temperature === undefined ? "" : ` at ${showTemperature(temperature.value)}`}.`,
            ];
      const options = [
        { word: "passed", value: true },
        { word: "failed", value: false },
      ];
      const steps = test.steps.map((step, index) => `${index + 1}. ${step}`);
      const parts = {
        lines: [
          ...steps,
          ...(timed ? [] : figures),
          `Pass: ${test.pass}`,
          timed
            ? `Take your time; then say ${bottle.name} cleared in 40 seconds.`
            : `Take your time; then say clip test ${bottle.name} passed, or failed.`,
          `[${test.source}]`,
        ],
        say: `Clip test ${bottle.name}: the steps are on the screen.`,
        facts: {
          bottle: bottle.name,
          steps: [...test.steps],
          pass_mark: test.pass,
          source: test.source,
        },
      };
      const title = `Clip test ${bottle.name}, ${bottle.bath}. ${test.asks}`;
      return timed
        ? askFor("clip test", { bottle: bottle.id }, "clearing", title, undefined, parts)
        : askFor("clip test", { bottle: bottle.id }, "verdict", title, options, parts);
    }
    if (clearing !== undefined) {
      if (!timed) {
        return refuse(
          "no-clearing-time",
          `${bottle.name} holds ${bottle.bath}; only fixer is judged by its clearing time. Say clip test ${bottle.name} passed, or failed.`,
          { say: "Only fixer is judged by clearing time." },
        );
      }
      const known = fresh ?? freshClearing(bottle);
      if (known === undefined && bottle.used > 0) {
        return askFor(
          "clip test",
          { bottle: bottle.id, clearing },
          "fresh",
          `${showDuration(seconds(clearing))} now. How long did it take when ${bottle.name} was fresh?`,
          undefined,
          {
            lines: [
              "Not known? Say cancel; without it there is no verdict, and mixing fresh is safer.",
            ],
          },
        );
      }
      const passed = known === undefined || !isSpent(clearing, known);
      return stored(bench, bottle, passed, { clearing, fresh: known }, now, who, test.source);
    }
    return stored(bench, bottle, verdict === true, {}, now, who, test.source);
  },
});

function stored(
  bench: Parameters<typeof withBottle>[0],
  bottle: Bottle,
  passed: boolean,
  times: { readonly clearing?: number; readonly fresh?: number | undefined },
  now: Parameters<typeof lookNow>[2],
  who: string,
  source: string,
) {
  const { clearing, fresh } = times;
  const result = {
    at: now,
    on: dateOf(now, bench.zone),
    by: who,
    passed,
    ...(clearing === undefined ? {} : { clearing }),
  };
  // A strip tells of strength: it does not prove that nothing foreign got in.
  const foul = bottle.suspect?.contaminated === true ? bottle.suspect : undefined;
  const judged = passed && foul === undefined ? clearSuspect(bottle) : bottle;
  const tested: Bottle = { ...judged, tests: [...(bottle.tests ?? []), result] };
  const seen =
    clearing === undefined
      ? []
      : [
          `Cleared in ${showDuration(seconds(clearing))}${fresh === undefined ? "; kept as its fresh time" : `, fresh ${showDuration(seconds(fresh))}; double is out`}.`,
        ];
  return withBottle(
    bench,
    tested,
    answer({
      title: `${bottle.name} ${passed ? "passed" : "FAILED"} its clip test${passed && foul !== undefined ? `, and stays SUSPECT: ${foul.why}` : ""}.`,
      lines: !passed
        ? [...seen, `No film in it. Say retire ${bottle.name}.`]
        : foul === undefined
          ? [...seen, "Tested: good for today; an unimportant roll first is wiser still."]
          : [
              ...seen,
              "A strip shows that it works; it does not prove it clean, and a trace may still ruin film.",
              `Mix fresh, or say trust ${bottle.name} when you are sure.`,
            ],
      say: !passed
        ? `${bottle.name} failed. No film in it.`
        : foul === undefined
          ? `${bottle.name} passed.`
          : `${bottle.name} passed, and stays suspect.`,
      facts: { bottle: bottle.name, passed, source },
      figures: {
        ...(clearing === undefined
          ? {}
          : { clearing_s: { value: clearing, origin: { kind: "told" as const } } }),
        ...(fresh === undefined
          ? {}
          : { fresh_s: { value: fresh, origin: { kind: "own log" as const } } }),
      },
      working: [`Founded on: ${source}.`],
    }),
  );
}
