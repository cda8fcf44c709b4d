import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { chosenReply } from "../src/commands/drift-choice.ts";
import { driftValues } from "../src/commands/drift-words.ts";
import { readOn } from "../src/commands/read-thermometer.ts";
import { readingReply } from "../src/commands/reading-reply.ts";
import { whichTank } from "../src/commands/tanks.ts";
import { oddReading, stageAt } from "../src/domain/session/drift-run.ts";
import { latestRun, liveRuns, runOfTank } from "../src/domain/session/find-run.ts";
import { standing } from "../src/domain/session/hear.ts";
import type { ReadingTaken, Run, Stage } from "../src/domain/session/run.ts";
import {
  bathTemperature,
  explainBathTemperature,
} from "../src/domain/temperature/bath-temperature.ts";
import {
  askAboutReading,
  questionReading,
  type ReadingQuestion,
} from "../src/domain/temperature/question-reading.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import {
  celsius,
  type Instant,
  instant,
  later,
  secondsBetween,
} from "../src/domain/units/quantity.ts";
import { plain, showTemperature } from "../src/domain/units/show.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

/** So long after its end a reading from before it still belongs to a run, s: our own bound. */
const LATE_NEWS = 300;
/** A reading older than this belongs to no bath that is still known, s: our own bound. */
const OLDEST = 6 * 3600;

const on = "[(on|by|with) [the] {thermometer} [thermometer|one]]";

export const temperatureCommand = defineCommand({
  name: "temperature",
  summary: "Log what the thermometer reads; in a bath, I weigh its drift.",
  topic: "run",
  sentences: [
    `[tank] {tank} [tank] temperature [is|now] [at] {temperature} ${on}`,
    `[the] [tank] {tank} [tank] [is|reads|is at] [now] [at] {temperature} ${on}`,
    `temperature [is|now] [at] {temperature} [in] [tank] [{tank}] ${on}`,
    `temperature [is|now] [at] {temperature} (in|of) [the] {solution} [[in] tank {tank}] ${on}`,
    `temperature [of|in] [the] {solution} [is|now|at|is at] {temperature} [[in] tank {tank}] ${on}`,
    `[the] {thermometer} (thermometer|one) [in [tank] {tank} [tank]] (is|reads|says|shows) [at] {temperature}`,
    `[the] {thermometer} (thermometer|one) (is|reads|says|shows) [at] {temperature} [in] [tank] {tank} [tank]`,
    `[temperature] [is|now] [at] {temperature} (on|by|with) [the] {thermometer} [thermometer|one] [in [tank] {tank} [tank]]`,
    `[the] {solution} [temperature] (is|reads|at|is at|now) [at] {temperature} [in tank {tank}] ${on}`,
    `[the] (bath|thermometer|tank|it) [is|reads|is at|says|at] [at] {temperature} [in there|in the tank|now] ${on}`,
    `(temperature|bath) [in|of] [tank] {tank} [tank] [is|reads|at|is at|now] {temperature} ${on}`,
    `{temperature} degrees [now] [in [tank] {tank} [tank]] ${on}`,
    `[the] (bath|thermometer|temperature|it|{solution}) [was|read|was at] {temperature} {ago} ago [[in] tank {tank}] ${on}`,
    `[the] [tank] {tank} [tank] [temperature] [was|read|was at] {temperature} {ago} ago ${on}`,
    `a moment ago [the] (bath|thermometer|temperature|it|{solution}) (was|read|was at) {temperature} [[in] tank {tank}] ${on}`,
    `{ago} ago [the] (bath|thermometer|temperature|it|{solution}) (was|read|was at) {temperature} [[in] tank {tank}] ${on}`,
    `(reading|read) {temperature} [in tank {tank}] ${on}`,
    "[the] (bath|tank|it|{solution}) is [much|a little|far|getting] too (warm|hot|cold|cool)",
    "{solution} {temperature}",
    "temperature",
  ],
  slots: { temperature: "reading", sure: "yes", thermometer: "word", ago: "duration" },
  examples: ["temperature 37.6", "developer is at 37.4", "it was 37.2 a minute ago"],
  fields: z.object({
    temperature: z
      .number("What does the thermometer read, in the bath itself?")
      .min(-5, "No bath is that cold. Give the reading with its unit, like 37.8 C.")
      .max(100, "That is hotter than boiling water. Give the reading with its unit, like 37.8 C."),
    solution: z.string().optional(),
    tank: z.string().optional(),
    thermometer: z.string().max(30, "Say which thermometer in a word, like red.").optional(),
    /** How long ago it was read, s. */
    ago: z
      .number()
      .min(0, "When did you read it? Like a minute ago.")
      .max(OLDEST, "That is too long ago to tell which bath it was. Say note to keep it.")
      .optional(),
    /** When it was read, where a question has taken time since. */
    readAt: z.number().transform(instant).optional(),
    sure: z.boolean().optional(),
    choice: z.enum(["keep", "adjust", "log"]).optional(),
    /** The stage a choice is about. */
    stage: z.number().int().optional(),
  }),
  changes: true,
  values: {
    thermometer: "the thermometer it was read on, when one was named or there is only one",
    tank: "tank",
    bath: "bath the reading is logged for",
    temp_c: "reading corrected, °C",
    read_c: "reading as shown, °C; missing when nothing was corrected",
    verified: "false when the thermometer's offset is not known; missing when none is known here",
    aim_c: "the sheet's temperature, °C",
    off_c: "reading less aim, °C",
    tolerance_c: "half width of the sheet's band, °C",
    within: "true when the reading is inside the band",
    ...driftValues,
  },
  run({ bench, now }, fields) {
    const { solution, tank, thermometer, sure, choice } = fields;
    const value = celsius(fields.temperature);
    const at = fields.readAt ?? later(now, -(fields.ago ?? 0));
    const having = tank === undefined ? withBath(liveRuns(bench), solution) : [];
    if (tank === undefined && having.length > 1) {
      return whichTank(bench, "temperature", { ...fields, readAt: at, ago: undefined });
    }
    const run =
      tank === undefined
        ? (having[0] ?? justOver(latestRun(bench), at, now))
        : runOfTank(bench, tank);
    if (run === undefined) return nothingRuns(latestRun(bench), value);
    const index = stageMeant(run, solution, at);
    const stage = index === undefined ? undefined : run.stages[index];
    if (index === undefined || stage === undefined) {
      return refuse(
        "no-such-bath",
        `${run.tank} has no ${solution ?? "bath"}: say which bath it was, ${run.stages.map(({ bath }) => bath).join(", ")}.`,
        { say: "Which bath was that?" },
      );
    }
    const late = choice !== undefined || justOver(run, at, now) !== undefined;
    if (run.endedAt !== undefined && !late) {
      return refuse("over", `${run.tank} is over; say note to add the temperature to its record.`);
    }
    if (stage.inAt !== undefined && at < stage.inAt && stage.inAt <= now) {
      return refuse(
        "before-pour",
        `That was before the ${stage.bath} went in at ${clockTime(stage.inAt, bench.zone)}, so it says nothing of the film. Nothing is logged.`,
        { say: `That was before the ${stage.bath} went in.` },
      );
    }
    if (choice !== undefined) return chosenReply(bench, run, fields.stage ?? index, choice, now);
    if (sure === false) {
      return answer({ title: "Then nothing is logged.", say: "Then nothing is logged." });
    }
    const asked = { ...fields, tank: run.tank, readAt: at, ago: undefined };
    const believed = bathTemperature(value, "C", stage.temperature);
    if (!believed.ok) {
      const { error } = believed;
      const title = explainBathTemperature(error);
      if (error.kind !== "other-unit") return refuse(error.kind, title, { say: oneBreath(title) });
      return confirm("temperature", { ...asked, temperature: error.meant }, "sure", title);
    }
    const { corrected, ...kept } = readOn(bench, thermometer, value, at);
    const reading: ReadingTaken = {
      at,
      stage: index,
      bath: stage.bath,
      temperature: corrected,
      read: value,
      ...(kept.thermometer === undefined ? {} : { thermometer: kept.thermometer }),
      ...(kept.unverified === undefined ? {} : { unverified: kept.unverified }),
    };
    const odd = sure === true ? undefined : questionOf(run, stage, index, reading, now);
    if (odd !== undefined) {
      const title = `${plain(value, 2)}? ${askAboutReading(odd)}`;
      return confirm("temperature", asked, "sure", title, {
        say: `${plain(value, 2)}? Is that right?`,
        lines: otherSlip(odd),
      });
    }
    if (sure !== true && solution === undefined && isUnpoured(run, stage, now)) {
      const shown = showTemperature(corrected);
      return confirm(
        "temperature",
        asked,
        "sure",
        `Nothing is in ${run.tank} yet: is ${shown} the ${stage.bath} itself, before its pour?`,
        {
          say: `${run.tank} is empty. Is that the ${stage.bath} itself?`,
          lines: [`With its name I do not ask: ${stage.bath} is at ${plain(value, 2)}.`],
        },
      );
    }
    return readingReply(bench, run, { ...reading, taken: kept.taken }, now);
  },
});

/** Nobody pours yet: a bare reading may be of another tank, or of no bath at all. */
const isUnpoured = (run: Run, stage: Stage, now: Instant): boolean =>
  stage.inAt === undefined && standing(run, now).kind === "planned";

/** A slip is asked about: held against the path of the bath, or against its band alone. */
function questionOf(
  run: Run,
  stage: Stage,
  index: number,
  reading: ReadingTaken,
  now: Instant,
): ReadingQuestion | undefined {
  const odd = oddReading(run, index, reading, now);
  if (odd !== false) return odd;
  return stage.temperature === undefined
    ? undefined
    : questionReading(reading, [], stage.temperature, stage.tolerance);
}

/** Of two readings that do not fit either may be the slip. */
function otherSlip(odd: ReadingQuestion): readonly string[] {
  if (odd.kind !== "jump") return [];
  const other = plain(odd.beside.temperature, 2);
  return [`If ${other} was the slip, say strike ${other}.`];
}

/** A run that ended a moment ago, where the reading is from before its end: a late word about it. */
const justOver = (run: Run | undefined, at: Instant, now: Instant): Run | undefined =>
  run?.endedAt !== undefined && at <= run.endedAt && secondsBetween(run.endedAt, now) <= LATE_NEWS
    ? run
    : undefined;

/** The bath that was named; without a name the one film was in at that moment. */
function stageMeant(
  run: Run,
  solution: string | undefined,
  at: Parameters<typeof stageAt>[1],
): number | undefined {
  if (solution === undefined) return stageAt(run, at);
  const named = bathCalled(run, solution);
  return named < 0 ? undefined : named;
}

const bathCalled = (run: Run, solution: string): number =>
  run.stages.findIndex(
    ({ bath, kind }) => bath === solution || kind === solution || kind.endsWith(` ${solution}`),
  );

/** A bath that only one open tank has tells which tank it is. */
function withBath(runs: readonly Run[], solution: string | undefined): readonly Run[] {
  if (solution === undefined) return runs;
  const having = runs.filter((run) => bathCalled(run, solution) >= 0);
  return having.length === 0 ? runs : having;
}

const nothingRuns = (past: Run | undefined, value: ReturnType<typeof celsius>) =>
  refuse(
    "nothing-running",
    `I read ${showTemperature(value)}, but no run is open to log it for.${past === undefined ? "" : ` The last one, ${past.tank}, is over.`}`,
    {
      say: "No run is open to log it for.",
      figures: { temp_c: { value, origin: { kind: "told" } } },
    },
  );
