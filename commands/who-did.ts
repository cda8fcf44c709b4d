import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { pastOfNamed, runNamed } from "../src/commands/run-named.ts";
import { isBath } from "../src/domain/log/run-facts.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import type { Stage } from "../src/domain/session/run.ts";
import { clockMinute, showDate } from "../src/domain/timing/clock-text.ts";
import { answer, oneBreath, type Reply, refuse } from "../src/reply/reply.ts";

export const whoDidCommand = defineCommand({
  name: "who did",
  summary: "Who mixed, planned, poured in and poured out, bath by bath.",
  topic: "run",
  sentences: [
    "who (mixed|made|bottled) {bottle}",
    "who (poured|did|put) [in|out] [the] {solution} [in] [in|out] [[of|in] [tank] {tank}]",
    "who (did what|poured|poured what|was there|worked) [in|at|on] [tank] [{tank}]",
    "who did [what] in [tank] {tank}",
    "who (did|worked) [what] [in|on|at] run [number] {number}",
  ],
  examples: ["who did what", "who poured the blix", "who mixed Acorn"],
  fields: z.object({
    bottle: z.string().optional(),
    solution: z.string().optional(),
    tank: z.string().optional(),
    number: z.number().optional(),
  }),
  changes: false,
  aside: true,
  reads: pastOfNamed,
  values: {
    run: "id of the run",
    bottle: "the bottle asked for",
    by: "who planned the run, or mixed the bottle",
    stages: "one entry a bath: bath, in_by, out_by, mixed_by; null where nobody was heard",
  },
  run({ bench, past }, { bottle, solution, tank, number }) {
    if (bottle !== undefined) return whoMixed(bench, bottle);
    const any = tank === undefined && number === undefined;
    const run = (any ? liveRuns(bench)[0] : undefined) ?? runNamed(bench, past, { tank, number });
    if (run === undefined) return refuse("no-run", "There is no run yet.");
    const stages = run.stages.filter((stage) => solution === undefined || isBath(stage, solution));
    const [first] = stages;
    if (first === undefined) {
      return refuse("no-such-bath", `${run.tank} has no ${solution} in it.`);
    }
    const title =
      solution === undefined
        ? `${run.tank}: planned by ${run.by ?? "nobody I heard"}`
        : `${run.tank}: ${stageWords(bench, first)}`;
    const rest = solution === undefined ? stages : stages.slice(1);
    return answer({
      title,
      lines: rest.map((stage) => stageWords(bench, stage)),
      say: oneBreath(title),
      facts: {
        run: run.id,
        by: run.by ?? null,
        stages: stages.map((stage) => ({
          bath: stage.bath,
          in_by: stage.inBy ?? null,
          out_by: stage.outBy ?? null,
          mixed_by: mixerOf(bench, stage) ?? null,
        })),
      },
    });
  },
});

const mixerOf = (bench: Bench, { bottle }: Stage): string | undefined =>
  bottle === undefined ? undefined : ownValue(bench.bottles, bottle)?.by;

function stageWords(bench: Bench, stage: Stage): string {
  const { bath, inAt, inBy, outAt, outBy, plusMinus, outByClock } = stage;
  const at = (instant: Stage["inAt"]): string =>
    instant === undefined ? "" : ` at ${clockMinute(instant, bench.zone)}`;
  const poured =
    inAt === undefined
      ? "not poured"
      : plusMinus !== undefined || inBy === undefined
        ? `poured in${at(inAt)}, nobody was heard`
        : `poured in by ${inBy}${at(inAt)}`;
  const out =
    outAt === undefined
      ? ""
      : outByClock === true || outBy === undefined
        ? "; out by the clock"
        : `; out by ${outBy}${at(outAt)}`;
  const mixer = mixerOf(bench, stage);
  const name = stage.bottle === undefined ? undefined : ownValue(bench.bottles, stage.bottle)?.name;
  const mixed = mixer === undefined ? "" : `; ${name} mixed by ${mixer}`;
  return `${bath}: ${poured}${out}${mixed}`;
}

function whoMixed(bench: Bench, id: string): Reply {
  const bottle = ownValue(bench.bottles, id);
  if (bottle === undefined) return refuse("no-such-bottle", "I know no such bottle. Say bottles.");
  const title = `${bottle.name}: ${bottle.bath}, mixed ${showDate(bottle.mixedOn)} by ${bottle.by}`;
  return answer({
    title,
    say: oneBreath(`${bottle.by} mixed ${bottle.name}.`),
    facts: { bottle: bottle.name, by: bottle.by },
  });
}
