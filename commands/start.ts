import { z } from "zod";
import { cautionsFor } from "../src/commands/cautions.ts";
import {
  askFor,
  defineCommand,
  type Handling,
  type Outcome,
} from "../src/commands/define-command.ts";
import { filmLoad, settleFilm } from "../src/commands/film-load.ts";
import { planFigures, planLines } from "../src/commands/run-lines.ts";
import { aboutSheet, bathOn, sheetById, sheetFor } from "../src/commands/sheets.ts";
import type { Bottle } from "../src/domain/chemistry/bottle.ts";
import { areaOrigin, filmUnits, showFilm } from "../src/domain/film/load.ts";
import { isWeak, showOrigin } from "../src/domain/origin.ts";
import { type PlanTrouble, planStage } from "../src/domain/process/plan-stages.ts";
import { type Bath, isWater, type Sheet } from "../src/domain/process/sheet.ts";
import { type Bench, liveBottles, takeId } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { type Run, type Stage, withStage } from "../src/domain/session/run.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { celsius, later, seconds } from "../src/domain/units/quantity.ts";
import { sayDuration, showCelsius, showDuration, showUnits } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const fields = z.object({
  /** A bath to time alone. */
  solution: z.string().optional(),
  /** A whole process, by its sheet. */
  sheet: z.string().optional(),
  film: filmLoad(
    40,
    "More than 40 rolls do not go into one tank. Give what is in this tank.",
  ).optional(),
  tank: z.string().max(30, "Give the tank a name of one or two words.").optional(),
  bottle: z.string().optional(),
  duration: z
    .number()
    .min(11, "A stage needs more than 10 seconds: the last 10 are for pouring out.")
    .max(86_400, "A stage of more than a day is no stage. Give minutes and seconds.")
    .optional(),
  temperature: z
    .number()
    .min(0, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
    .max(60, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
    .optional(),
});
type Wanted = z.output<typeof fields>;

/** Said with the plan, before anything is wet: what cannot be mended later. */
const CHECKS =
  "Before you pour: tube in, lid ring locked, the developer itself measured, the next bottles in order behind.";

export const startCommand = defineCommand({
  name: "start",
  summary: "Plan a run with clock times and time it: one bath, or a whole process.",
  topic: "run",
  sentences: [
    "(start|time|begin|run) {solution} [stage|bath] <(for|to) {duration} / [with|for] {film} / [in] tank {tank} / [in] [the] {tank} tank / (from|using|with) {bottle} / at {temperature}>",
    "(start|begin|run) {sheet} <[with|for] {film} / [in] tank {tank} / [in] [the] {tank} tank / (from|using|with) {bottle} / at {temperature}>",
    "(start|begin|run) {solution} (by|from|with|on) [the] {sheet} [sheet] <for {duration} / [with|for] {film} / [in] tank {tank} / (from|using|with) {bottle} / at {temperature}>",
    "(develop|process) {film} [in] [(with|by|on)] [the] {sheet} [sheet] <[in] tank {tank} / at {temperature}>",
    "(start|begin) [a] (run|session|process) <[with|for] {film} / [in] tank {tank}>",
    "(develop|process) {film} <[in] tank {tank} / at {temperature}>",
  ],
  slots: { tank: "newTank" },
  examples: [
    "start developer",
    "start colour negative two rolls tank north",
    "start blix for 6:30",
    "start developer one roll of 120 at 38.2",
  ],
  fields,
  changes: true,
  values: {
    run: "id of the run",
    tank: "its name",
    sheet: "the sheet it follows",
    stages:
      "one entry a bath: bath, time_s, sense, temp_c, tolerance_c, pour_out_s, agitate_at_s, vent_at_s",
    time_s: "time of the first bath, s",
    temp_c: "temperature of the first bath, °C",
    total_s: "the whole plan, s",
    first_pour: "ISO instant of the first pour",
    units: "film in units of 80 sq in",
    film: "formats and counts",
    bottles: "bath to bottle name",
  },
  run(at, wanted) {
    return begin(at, wanted);
  },
});

function begin(at: Handling, wanted: Wanted): Reply | Outcome {
  const found = sheetFor(at.bench, "process", wanted.sheet);
  if (found === undefined) return noSheet(at.bench, wanted.sheet);
  const { sheet, chosen } = found;
  const baths = bathsOf(sheet, wanted);
  if ("reply" in baths) return baths.reply;

  const tank = tankName(at.bench, wanted.tank);
  if (tank === undefined) {
    return refuse(
      "tank-busy",
      `Tank ${wanted.tank ?? "Tank"} has a run open. Stop it first, or name another: start developer tank south.`,
      { say: `Tank ${wanted.tank ?? "Tank"} is busy. Name another tank.` },
    );
  }
  const settled = wanted.film === undefined ? { film: [], assumed: [] } : settleFilm(wanted.film);
  if ("ask" in settled) return askFor("start", wanted, "film", settled.ask, settled.options);
  const film = [...settled.film];

  const stages: Stage[] = [];
  const bottles: Record<string, string> = {};
  for (const bath of baths.baths) {
    const alone = baths.baths.length === 1;
    const said =
      alone || bath === baths.baths[0]
        ? {
            time: wanted.duration === undefined ? undefined : seconds(wanted.duration),
            temperature: wanted.temperature === undefined ? undefined : celsius(wanted.temperature),
          }
        : {};
    const planned = planStage(bath, said);
    if (!planned.ok) return explainPlan(planned.trouble, sheet, wanted);
    const bottle = bottleFor(
      at.bench,
      bath,
      alone || bath === baths.baths[0] ? wanted.bottle : undefined,
    );
    if ("several" in bottle) {
      const names = bottle.several.map(({ name }) => name);
      return askFor(
        "start",
        wanted,
        "bottle",
        `Which bottle of ${bath.name}: ${names.join(" or ")}?`,
        bottle.several.map(({ id, name }) => ({ word: name, value: id })),
      );
    }
    if ("wrong" in bottle) return bottle.wrong;
    if (bottle.bottle !== undefined) bottles[bath.name] = bottle.bottle.name;
    stages.push({ ...planned.stage, bottle: bottle.bottle?.id });
  }

  const { id, bench } = takeId(at.bench, "run-");
  const firstPour = later(at.now, bench.lead);
  const title = baths.baths.length === 1 ? (stages[0]?.bath ?? sheet.name) : sheet.name;
  const run: Run = withStage(
    {
      id,
      tank,
      title,
      sheet: sheet.id,
      process: sheet.process,
      film,
      formatAssumed: settled.assumed.length > 0,
      plannedAt: at.now,
      current: 0,
      stages,
      cuedUntil: at.now,
      window: seconds(bench.window),
      quiet: false,
      readings: [],
      notes: [],
      counted: [],
    },
    0,
    { pourAt: firstPour },
  );

  const kinds = stages.map((stage) => stage.kind);
  const warned = cautionsFor(bench, kinds, "run", at.now);
  const { cautioned } = warned;
  const units = filmUnits(film);
  const lines = [
    ...planLines(bench, run, firstPour),
    ...(film.length > 0
      ? [
          `Film: ${showFilm(film)}, ${showUnits(units)}${settled.assumed.length > 0 ? ` (${settled.assumed.join("; ")})` : ""}.`,
        ]
      : ["No film named; say it with start if a bottle is to be counted."]),
    `First pour ${clockTime(firstPour, bench.zone)}, in ${showDuration(seconds(bench.lead))}. Say ready to pour now, wait to put it off. No clock is running.`,
  ];
  const weak = stages.filter((stage) => isWeak(stage.timeOrigin)).map((stage) => stage.bath);
  const cautions = [
    ...aboutSheet(sheet, chosen, stages.length > 1),
    ...(weak.length > 0 && !sheet.invented
      ? [`From memory, check your sheet: time of ${weak.join(", ")}.`]
      : []),
    CHECKS,
    ...warned.cautions,
  ];
  const reply = answer({
    title: `${tank}: ${title}, plan`,
    lines,
    say: sayPlan(tank, stages, bench.lead),
    cautions,
    figures: {
      ...planFigures(run),
      ...(film.length > 0 ? { units: { value: units, origin: areaOrigin(film) } } : {}),
      first_pour: {
        value: Temporal.Instant.fromEpochMilliseconds(firstPour).toString(),
        origin: { kind: "computed", source: `now plus the bench's lead of ${bench.lead} s` },
      },
    },
    facts: { run: id, tank, sheet: sheet.name, bottles, film: film.map((one) => ({ ...one })) },
    working: workingOf(run),
  });
  return { bench: { ...bench, cautioned, runs: { ...bench.runs, [id]: run } }, reply };
}

function sayPlan(tank: string, stages: readonly Stage[], lead: number): string {
  const first = stages[0];
  if (first === undefined) return "";
  return `${tank}: ${first.bath} ${sayDuration(first.time)}, pour in ${lead} seconds. Ready?`;
}

function bathsOf(
  sheet: Sheet,
  wanted: Wanted,
): { readonly baths: readonly Bath[] } | { readonly reply: Reply } {
  if (wanted.solution === undefined) {
    const timed = sheet.baths.filter((bath) => bath.time !== undefined);
    if (timed.length > 0) return { baths: timed };
    return {
      reply: refuse(
        "no-times",
        `The ${sheet.name} sheet has no times. Use another: use sheet colour negative.`,
      ),
    };
  }
  const found = bathOn(sheet, wanted.solution);
  if (found !== undefined && "bath" in found) return { baths: [found.bath] };
  if (found !== undefined) {
    const names = found.several.map(({ name }) => name);
    return {
      reply: askFor(
        "start",
        wanted,
        "solution",
        `Which ${wanted.solution}: ${names.join(" or ")}?`,
        names,
      ),
    };
  }
  // A bath the sheet does not know can still be timed when the user gives its time.
  if (wanted.duration !== undefined) {
    return {
      baths: [
        {
          name: wanted.solution,
          kind: wanted.solution,
          sense: wanted.solution.endsWith("developer") ? "exact" : "at least",
        },
      ],
    };
  }
  return {
    reply: askFor(
      "start",
      wanted,
      "duration",
      `The ${sheet.name} sheet has no ${wanted.solution}. How long does yours say?`,
    ),
  };
}

/** A tank's name, or undefined when it has a run open. */
function tankName(bench: Bench, said: string | undefined): string | undefined {
  const open = new Set(liveRuns(bench).map((run) => run.tank.toLowerCase()));
  if (said !== undefined) {
    const name = said.charAt(0).toUpperCase() + said.slice(1);
    return open.has(said.toLowerCase()) ? undefined : name;
  }
  if (!open.has("tank")) return "Tank";
  for (const word of ["Tank two", "Tank three", "Tank four"])
    if (!open.has(word.toLowerCase())) return word;
  return undefined;
}

type BottleChoice =
  | { readonly bottle: Bottle | undefined }
  | { readonly several: readonly Bottle[] }
  | { readonly wrong: Reply };

/** The bottle a bath is poured from: the named one, or the only one that holds it. */
function bottleFor(bench: Bench, bath: Bath, named: string | undefined): BottleChoice {
  if (isWater(bath.kind)) return { bottle: undefined };
  if (named !== undefined) {
    const bottle = bench.bottles[named];
    if (bottle === undefined) return { bottle: undefined };
    if (bottle.bath === bath.kind || bottle.bath === bath.name) return { bottle };
    return {
      wrong: refuse(
        "wrong-bottle",
        `Stop. ${bottle.name} holds ${bottle.bath}, and this bath is ${bath.name}. Nothing is poured.`,
        { say: `Stop. ${bottle.name} holds ${bottle.bath}.`, facts: { bottle: bottle.name } },
      ),
    };
  }
  const holding = liveBottles(bench).filter(
    (bottle) => bottle.bath === bath.kind || bottle.bath === bath.name,
  );
  return holding.length > 1 ? { several: holding } : { bottle: holding[0] };
}

function explainPlan(trouble: PlanTrouble, sheet: Sheet, wanted: Wanted): Reply {
  if (trouble.kind === "no-time") {
    return askFor(
      "start",
      wanted,
      "duration",
      `The ${sheet.name} sheet has no time for ${trouble.bath}. How long does yours say?`,
    );
  }
  return refuse(
    "too-short",
    `${trouble.bath}: ${showDuration(trouble.time)} leaves no time, the last ${showDuration(trouble.drain)} are for pouring out. Give a longer time.`,
  );
}

function noSheet(bench: Bench, id: string | undefined): Reply {
  const name = id === undefined ? "that sheet" : (sheetById(bench, id)?.name ?? id);
  return refuse("no-such-sheet", `I have no sheet called ${name}. Say sheets for those I have.`);
}

function workingOf(run: Run): readonly string[] {
  return run.stages.flatMap((stage) => [
    `${stage.bath}: ${showDuration(stage.time)}, ${stage.sense}; time ${showOrigin(stage.timeOrigin)}`,
    ...(stage.temperature === undefined || stage.temperatureOrigin === undefined
      ? []
      : [`  ${showCelsius(stage.temperature)}; ${showOrigin(stage.temperatureOrigin)}`]),
    ...(stage.agitation === undefined
      ? []
      : [`  agitation; ${showOrigin(stage.agitation.origin)}`]),
    `  pour out ${showDuration(stage.drain)} before the end, inside the time; ${showOrigin(stage.drainOrigin)}`,
  ]);
}
