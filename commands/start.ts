import { z } from "zod";
import { bathsBefore } from "../src/commands/baths-before.ts";
import { cautionsFor } from "../src/commands/cautions.ts";
import { withChosenTimes } from "../src/commands/chosen-times.ts";
import {
  askFor,
  defineCommand,
  type Handling,
  type Outcome,
} from "../src/commands/define-command.ts";
import {
  correctionFigures,
  correctionLines,
  developingValues,
} from "../src/commands/developing.ts";
import { filmJson, filmLoad, settleFilm } from "../src/commands/film-load.ts";
import { loadValues, rollsField, startLoaded } from "../src/commands/load-rolls.ts";
import { placeValues } from "../src/commands/place-run.ts";
import { planStart } from "../src/commands/plan-start.ts";
import { planFigures, planLines } from "../src/commands/run-lines.ts";
import { aboutSheet, sheetById, sheetFor } from "../src/commands/sheets.ts";
import { bathsMeant } from "../src/commands/start-baths.ts";
import { guardValues } from "../src/commands/start-guards.ts";
import { coldLines, otherTemperature, warmthCautions } from "../src/commands/warmth-cautions.ts";
import type { BottleLook } from "../src/domain/chemistry/look.ts";
import { areaOrigin, filmUnits, showFilm } from "../src/domain/film/load.ts";
import { isWeak, showOrigin } from "../src/domain/origin.ts";
import { mixedPushes, showStops } from "../src/domain/process/push-time.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { awaitsIn, standing } from "../src/domain/session/hear.ts";
import { rehearsalMark } from "../src/domain/session/rehearsal.ts";
import type { Run } from "../src/domain/session/run.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import {
  type Instant,
  type Seconds,
  seconds,
  secondsBetween,
} from "../src/domain/units/quantity.ts";
import { sayDuration, showCelsius, showDuration, showUnits } from "../src/domain/units/show.ts";
import { answer, oneBreath, type Reply, refuse } from "../src/reply/reply.ts";

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
  /** The bath the open question about a bottle is about, and those answered before, by bath. */
  bottleOf: z.string().optional(),
  poured: z.record(z.string(), z.string()).optional(),
  duration: z
    .number()
    .min(
      11,
      "A stage needs more than 10 seconds: the last 10 are for pouring out. For a rinse of 10 seconds say 20.",
    )
    .max(86_400, "A stage of more than a day is no stage. Give minutes and seconds.")
    .optional(),
  temperature: z
    .number()
    .min(0, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
    .max(60, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
    .optional(),
  /** Rolls of the list, by number or name. */
  rolls: rollsField.optional(),
  /** Stops; negative for a pull. */
  push: z.number().optional(),
  pushRule: z.string().optional(),
  /** What is taken where the temperature only gives an estimate. */
  estimate: z.enum(["sheet", "middle"]).optional(),
  /** More film for the same tank, with a push of its own: refused unless it is the same. */
  other: filmLoad(40, "More than 40 rolls do not go into one tank.").optional(),
  otherPush: z.number().optional(),
  /** Times of baths the sheet leaves open, s by bath, and the bath that is being asked about. */
  times: z.record(z.string(), z.number()).optional(),
  asking: z.string().optional(),
  /** The sheet, by id, whose developer figures hold, where the bottle was mixed by another. */
  figures: z.string().optional(),
  beyond: z.boolean().optional(),
  untested: z.boolean().optional(),
  /** Said yes to figures that are from memory, for this run. */
  recalled: z.boolean().optional(),
  /** Said yes to a start that wants one pair of hands in two places. */
  collide: z.boolean().optional(),
  /** Water and a scrap roll: what `rehearse` plans. */
  rehearsal: z.object({ speed: z.number() }).optional(),
});
type Wanted = z.output<typeof fields>;

const wish = "[(i|we) (want|need|would like) to|let us|i am going to|we are going to]";

/** Said with the plan, before anything is wet: what cannot be mended later. */
const CHECKS =
  "Before you pour: tube in, lid ring locked, the developer itself measured, the next bottles in order behind.";

/** The same for a rehearsal. */
const WATER =
  "Water in the place of every bath and a scrap roll in the tank: no chemistry, no film of yours.";

export const startCommand = defineCommand({
  name: "start",
  summary: "Plan a run with clock times and time it: one bath, or a whole process.",
  topic: "run",
  sentences: [
    `${wish} (start|time|begin|run) {solution} [stage|bath] <(for|to) {duration} / [with|for] {rolls} / [with|for] {film} / [in] tank {tank} / [in] [the] {tank} tank / (from|using|with) {bottle} / at {temperature} / {push} / {duration}>`,
    `${wish} (start|begin|run) {sheet} [process] <[with|for] {rolls} / [with|for] {film} / [in] tank {tank} / [in] [the] {tank} tank / (from|using|with) {bottle} / at {temperature} / {push}>`,
    "(start|begin|run) {solution} (by|from|with|on) [the] {sheet} [sheet] <for {duration} / [with|for] {rolls} / [with|for] {film} / [in] tank {tank} / (from|using|with) {bottle} / at {temperature} / {push}>",
    "(start|begin|run|develop|process) [{solution}] [with|for] {film} {push} and {other} [{otherPush}] <[in] tank {tank} / [in] [the] {tank} tank>",
    `${wish} (develop|process) {film} [in] [(with|by|on)] [the] {sheet} [sheet] <[in] tank {tank} / at {temperature} / {push}>`,
    `${wish} (develop|process|load) {rolls} <[(with|by|on)] [the] {sheet} [sheet] / [in|into] tank {tank} / at {temperature} / {push}>`,
    `${wish} (start|begin) [a] [run|session|process] <[with|for] {rolls} / [with|for] {film} / [in] tank {tank}>`,
    `${wish} (develop|process) {film} <[in] tank {tank} / at {temperature} / {push}>`,
    "let us (develop|start|begin)",
  ],
  slots: {
    tank: "newTank",
    other: "film",
    otherPush: "push",
    pushRule: "word",
    beyond: "yes",
    untested: "yes",
    collide: "yes",
    recalled: "yes",
  },
  examples: [
    "start developer",
    "start colour negative two rolls tank north",
    "start blix for 6:30",
    "start developer one roll of 120 at 38.2",
    "start developer two rolls pushed one stop",
    "start colour negative with rolls 1 and 2 tank north",
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
    recalled: "figures from memory that were asked about: bath, figure",
    ...developingValues,
    ...guardValues,
    ...loadValues,
    ...placeValues,
  },
  run(at, wanted) {
    const [waiting] = liveRuns(at.bench).filter((run) => awaitsIn(run, at.now));
    if (waiting !== undefined && Object.values(wanted).every((one) => one === undefined)) {
      return runWaits(waiting, at.now);
    }
    return startLoaded(at, wanted, begin);
  },
});

/** "start" alone, said beside a run that waits, is hardly meant for another one. */
function runWaits(run: Run, now: Instant): Reply {
  const planned = standing(run, now).kind === "planned";
  const word = planned ? "Say ready to pour." : "Say in the moment it is full.";
  const bath = run.stages[run.current]?.bath ?? "the bath";
  const what = planned ? `${bath} waits` : `pour ${bath}`;
  return refuse(
    "run-waits",
    `${run.tank}: ${what}. ${word} For another run name its bath or its tank, like start blix tank south.`,
    { say: `${run.tank}: ${what}. ${word}` },
  );
}

function begin(at: Handling, wanted: Wanted): Reply | Outcome {
  const found = sheetFor(at.bench, "process", wanted.sheet);
  if (found === undefined) return noSheet(at.bench, wanted.sheet);
  const { chosen } = found;
  const { sheet, table } = withChosenTimes(at.bench, found.sheet);
  const baths = bathsMeant(sheet, wanted);
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
  if (wanted.other !== undefined) {
    const mixed = otherFilm(wanted);
    if (mixed !== undefined) return mixed;
    const more = settleFilm(wanted.other);
    if ("ask" in more) return askFor("start", wanted, "other", more.ask, more.options);
    film.push(...more.film);
  }
  if (wanted.beyond === false || wanted.untested === false) return notStarted();
  if (wanted.recalled === false) {
    return notStarted("Give a bath the time of your sheet, or say learn a sheet.");
  }

  const made = planStart(at, sheet, baths, film, settled.assumed.length > 0, tank, wanted);
  if ("reply" in made) return made.reply;
  const { bench, run, firstPour, placed, staged, followed, alone, notes } = made;
  const { id, stages } = run;
  const { bottles, looks, developed, owners } = staged;
  const mark = rehearsalMark(run);

  const kinds = stages.map((stage) => stage.kind);
  const warned =
    mark === undefined
      ? cautionsFor(bench, kinds, "run", at.now)
      : { cautions: [], cautioned: bench.cautioned };
  const { cautioned } = warned;
  const units = filmUnits(film);
  const untilPour = secondsBetween(at.now, firstPour);
  const lines = [
    ...(mark === undefined ? [] : [mark]),
    ...planLines(bench, run, firstPour),
    ...(developed === undefined ? [] : correctionLines(developed)),
    ...coldLines(staged.stages),
    ...notes,
    ...placed.lines,
    ...(run.film.length > 0
      ? [
          `Film: ${showFilm(film)}, ${showUnits(units)}${settled.assumed.length > 0 ? ` (${settled.assumed.join("; ")})` : ""}.`,
        ]
      : mark === undefined
        ? ["No film named; say it with start if a bottle is to be counted."]
        : []),
    `First pour ${clockTime(firstPour, bench.zone)}, in ${showDuration(untilPour)}. Say ready to pour now, wait to put it off. No clock is running.`,
  ];
  const weak = stages.filter((stage) => isWeak(stage.timeOrigin)).map((stage) => stage.bath);
  const cautions = [
    ...(alone ? [] : aboutSheet(sheet, chosen, stages.length > 1)),
    ...owners.flatMap((one) => aboutSheet(one, true, false)),
    ...(bench.suspects ?? [])
      .filter(({ kind }) => kind === "sheet")
      .flatMap(({ name, why }) =>
        [followed, ...owners]
          .filter(({ id: one }, index, all) => one === name && all[index - 1]?.id !== one)
          .map(
            (one) => `The ${one.name} sheet is marked suspect: ${why}. Compare it with the paper.`,
          ),
      ),
    ...(weak.length > 0 && !followed.invented
      ? [`From memory, check your sheet: time of ${weak.join(", ")}.`]
      : []),
    ...(stages.length === 1 ? bathsBefore(followed, stages[0]) : []),
    ...otherTemperature(staged.timed, staged.stages, wanted),
    // Times of a chosen table are the sheet's in use: a bottle's own sheet outranks both.
    ...warmthCautions(bench, sheet, stages, developed, owners.length === 0 ? table : undefined),
    mark === undefined ? CHECKS : WATER,
    ...warned.cautions,
  ];
  const reply = answer({
    title: `${tank}: ${run.title}, plan`,
    lines,
    say: sayPlan(run, untilPour),
    cautions,
    figures: {
      ...planFigures(run),
      ...(developed === undefined ? {} : correctionFigures(developed)),
      ...placed.figures,
      ...(run.film.length > 0 ? { units: { value: units, origin: areaOrigin(run.film) } } : {}),
      first_pour: {
        value: Temporal.Instant.fromEpochMilliseconds(firstPour).toString(),
        origin: { kind: "computed", source: placed.how },
      },
    },
    facts: {
      run: id,
      tank,
      sheet: followed.name,
      bottles,
      film: filmJson(run.film),
      ...(run.rehearsal === undefined ? {} : { rehearsal_speed: run.rehearsal.speed }),
      ...(run.push === undefined ? {} : { push: run.push }),
    },
    working: [...workingOf(run), ...looks.flatMap(worksWith)],
  });
  return { bench: { ...bench, cautioned, runs: { ...bench.runs, [id]: run } }, reply };
}

const notStarted = (...lines: readonly string[]): Reply =>
  answer({ title: "Then nothing is started.", say: "Then nothing is started.", lines });

/** Two pushes in one tank want two times: refused, with what to do. */
function otherFilm({ push, otherPush }: Wanted): Reply | undefined {
  if (!mixedPushes([push ?? 0, otherPush ?? 0])) return undefined;
  return refuse(
    "mixed-push",
    `${showStops(push ?? 0)} and ${showStops(otherPush ?? 0)} want two times, and one tank has one. Do them in two tanks: one push, one tank.`,
    { say: "One tank, one push. Do two tanks." },
  );
}

/** What a bottle has done and can do, for `why`. */
const worksWith = (look: BottleLook): readonly string[] => [
  `${look.bottle.name}: ${showUnits(look.bottle.used)} done before${look.capacity === undefined ? "" : ` of ${showUnits(look.capacity.value)}; ${showOrigin(look.capacity.origin)}`}`,
];

function sayPlan({ tank, stages, rehearsal }: Run, untilPour: Seconds): string {
  const first = stages[0];
  if (first === undefined) return "";
  const soon = sayDuration(seconds(Math.round(untilPour)));
  if (rehearsal !== undefined) return `${tank}, rehearsal: pour water in ${soon}. Ready?`;
  return oneBreath(`${tank}: ${first.bath} ${sayDuration(first.time)}, pour in ${soon}. Ready?`);
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

function noSheet(bench: Bench, id: string | undefined): Reply {
  const name = id === undefined ? "that sheet" : (sheetById(bench, id)?.name ?? id);
  return refuse("no-such-sheet", `I have no sheet called ${name}. Say sheets for those I have.`);
}

function workingOf(run: Run): readonly string[] {
  return run.stages.flatMap((stage) => [
    `${stage.bath}: ${showDuration(stage.time)}, ${stage.sense}; time ${showOrigin(stage.timeOrigin)}`,
    ...(stage.corrections ?? []).map(({ kind, how }) => `  ${kind}: ${how}`),
    ...(stage.temperature === undefined || stage.temperatureOrigin === undefined
      ? []
      : [`  ${showCelsius(stage.temperature)}; ${showOrigin(stage.temperatureOrigin)}`]),
    ...(stage.agitation === undefined
      ? []
      : [`  agitation; ${showOrigin(stage.agitation.origin)}`]),
    `  pour out ${showDuration(stage.drain)} before the end, inside the time; ${showOrigin(stage.drainOrigin)}`,
  ]);
}
