import { z } from "zod";
import { canDo, canDoValues } from "../src/commands/can-do.ts";
import { askFor, defineCommand, type Handling } from "../src/commands/define-command.ts";
import { tellEvening } from "../src/commands/evening-answer.ts";
import { eveningSupplies } from "../src/commands/evening-supplies.ts";
import { dryingOf, LONGEST_HOURS } from "../src/commands/evening-times.ts";
import { filmLoad, settleFilm } from "../src/commands/film-load.ts";
import { sheetFor } from "../src/commands/sheets.ts";
import type { EveningRoll } from "../src/domain/film/evening.ts";
import { filmUnits } from "../src/domain/film/load.ts";
import { planEvening } from "../src/domain/film/plan-evening.ts";
import { markOf, type ProcessMark } from "../src/domain/film/process-mark.ts";
import { hasBacking, isWaiting, type Roll } from "../src/domain/film/roll.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { layOut } from "../src/domain/timing/stage-clock.ts";
import { type Instant, instant, later, secondsBetween } from "../src/domain/units/quantity.ts";
import { type Reply, refuse } from "../src/reply/reply.ts";

const clock = z.object({
  hour: z.number().int().min(0).max(23),
  minute: z.number().int().min(0).max(59),
  ambiguous: z.literal(true).optional(),
});

const when =
  "[for] (tonight|this evening|this afternoon|today|now|the evening|an evening|a session|my session)";
const named = "(until|till|to be done by|by|before) {until}|(for|in) {duration}|i have {duration}";
const end = `[${named}]`;

export const planEveningCommand = defineCommand({
  name: "plan tonight",
  summary: "Pack the film that waits into tank loads: what, where, when, and what waits.",
  topic: "film",
  sentences: [
    `plan ${when} ${end}`,
    `plan [for] {duration}`,
    `plan (until|till|to) {until}`,
    `(what|which rolls|which films|how many rolls) can (i|we) (do|develop|process|fit) ${when} ${end}`,
    `what (is|are) (on|possible) ${when} ${end}`,
    `(what|which rolls|how many rolls) can (i|we) (do|develop|process) (until|till|by|before) {until}`,
    `(what|which rolls|how many rolls) can (i|we) (do|develop|process) in {duration}`,
    `(can|could) (i|we) (do|develop|process|fit) {film} [${when}] (${named})`,
    `(is there|do i have|do we have) time for {film} [${when}] ${end}`,
  ],
  slots: { until: "clock" },
  examples: [
    "plan tonight",
    "plan tonight until 23:00",
    "plan three hours",
    "what can I do tonight",
  ],
  fields: z.object({
    until: clock.optional(),
    duration: z
      .number()
      .min(600, "An evening of less than 10 minutes holds no load. Give more time.")
      .max(86_400, "Plan a day at most. Say plan three hours, or plan tonight until 23:00.")
      .optional(),
    film: filmLoad(40, "That is more than an evening holds. Ask for 40 at most.").optional(),
  }),
  changes: false,
  values: {
    ...canDoValues,
    loads:
      "one entry a load, in order: start, end (ISO), tank, bottles (names, one a bath), rolls (numbers), process, push_stops, volume_ml, units, units_after (of the bottle that can then take least), waited_min, test, tests (doubtful bottles tried on it)",
    left_out: "one entry a roll that waits: roll, reason",
    rolls: "rolls in the plan",
    important: "important ones among them",
    begin: "ISO instant at which the first load can begin",
    total_min: "from there to the end of the last load, minutes",
    until: "ISO instant by which it must be done",
    drying_min: "drying of reels between loads, minutes",
    setup_min: "setting up a load, minutes",
    optimal:
      "true when no plan is better by: important rolls, rolls, film, few doubtful bottles, time",
    clip_tests: "doubtful bottles in it that no roll can test: a clip first",
  },
  run(at, wanted) {
    const { bench, now } = at;
    const asked = wanted.film === undefined ? undefined : settleFilm(wanted.film);
    if (asked !== undefined && "ask" in asked) {
      return askFor("plan tonight", wanted, "film", asked.ask, asked.options);
    }
    const rolls =
      asked === undefined
        ? Object.values(bench.rolls).filter(isWaiting)
        : supposed(bench, asked.film);
    // No tank is known: whether the bottles could do it is still worth an answer.
    if (wanted.film !== undefined && noTank(bench)) return canDo(at, { film: wanted.film });
    const trouble = nothingToPlan(bench, rolls);
    if (trouble !== undefined) return trouble;
    const until = endOf(at, wanted);
    const from = handsFree(bench, now);
    const loaded = new Set(liveRuns(bench).flatMap(({ rolls: ids }) => ids ?? []));
    const busy = new Set(liveRuns(bench).map(({ tank }) => tank.toLowerCase()));
    const free = rolls.filter(({ id }) => !loaded.has(id));
    const supplies = eveningSupplies(bench, now, pushesOf(free));
    const plan = planEvening({
      rolls: free.map(asEveningRoll),
      tanks: Object.values(bench.tanks).filter(({ name }) => !busy.has(name.toLowerCase())),
      supplies: supplies.map(({ supply }) => supply),
      minutes: Math.max(0, secondsBetween(from, until) / 60),
      drying: dryingOf(bench) / 60,
    });
    return tellEvening(at, plan, {
      rolls: free,
      supplies,
      from,
      until,
      asked,
      assumed: asked?.assumed ?? [],
    });
  },
});

/** The pushes that wait, by process. */
function pushesOf(rolls: readonly Roll[]): ReadonlyMap<ProcessMark, readonly number[]> {
  const pushes = new Map<ProcessMark, number[]>();
  for (const { marked, push } of rolls) {
    if (marked === undefined) continue;
    const known = pushes.get(marked);
    if (known === undefined) pushes.set(marked, [push]);
    else if (!known.includes(push)) known.push(push);
  }
  return pushes;
}

const asEveningRoll = (roll: Roll): EveningRoll => ({
  id: roll.id,
  format: roll.format,
  units: filmUnits([{ format: roll.format, count: 1 }]),
  marked: roll.marked,
  push: roll.push,
  important: roll.important,
  doubtful: roll.doubtful,
  backing: hasBacking(roll),
});

/** Film that was only asked about: taken as the process of the sheet in use, not pushed. */
function supposed(
  bench: Bench,
  film: readonly { format: Roll["format"]; count: number }[],
): readonly Roll[] {
  const sheet = sheetFor(bench, "process")?.sheet;
  const marked = sheet === undefined ? undefined : markOf(sheet.process);
  return film
    .flatMap(({ format, count }) => Array.from({ length: count }, () => format))
    .map((format, index) => ({
      id: `supposed-${index}`,
      number: index + 1,
      format,
      ...(marked === undefined ? {} : { marked }),
      push: 0,
      important: false,
      doubtful: false,
    }));
}

/** One pair of hands: the first load begins when the open runs are over, as far as can be told. */
const handsFree = (bench: Bench, now: Instant): Instant =>
  instant(Math.max(now, ...liveRuns(bench).map((run) => layOut(run, now).at(-1)?.end ?? now)));

const noTank = (bench: Bench): boolean =>
  !Object.values(bench.tanks).some(({ layouts }) => layouts.length > 0);

function nothingToPlan(bench: Bench, rolls: readonly Roll[]): Reply | undefined {
  if (rolls.length === 0) {
    return refuse(
      "no-rolls",
      "No rolls wait. Say add two rolls of 120 marked C-41, then plan tonight.",
    );
  }
  if (!noTank(bench)) return undefined;
  return refuse(
    "no-tanks",
    "I know no tank with its reels. Say tank north has two 35 mm reels of 300 ml each.",
    { say: "I know no tank. Tell me its reels first." },
  );
}

/** The end that was named, or as far as an evening reaches. */
function endOf(
  { bench, now }: Handling,
  wanted: {
    readonly until?: z.output<typeof clock> | undefined;
    readonly duration?: number | undefined;
  },
): Instant {
  if (wanted.duration !== undefined) return later(now, wanted.duration);
  const longest = later(now, LONGEST_HOURS * 3600);
  const { until } = wanted;
  if (until === undefined) return longest;
  const here = Temporal.Instant.fromEpochMilliseconds(Math.floor(now)).toZonedDateTimeISO(
    bench.zone,
  );
  const hours = until.ambiguous === true ? [until.hour % 12, (until.hour % 12) + 12] : [until.hour];
  const ends = [0, 1].flatMap((days) =>
    hours.map((hour) =>
      here
        .toPlainDate()
        .add({ days })
        .toZonedDateTime({ timeZone: bench.zone, plainTime: { hour, minute: until.minute } }),
    ),
  );
  const next = ends
    .map(({ epochMilliseconds }) => instant(epochMilliseconds))
    .filter((end) => end > now)
    .sort((a, b) => a - b)[0];
  return next ?? longest;
}
