import { areaOrigin, filmUnits, showFilm } from "../domain/film/load.ts";
import { showStops } from "../domain/process/push-time.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { ReadingTaken, Run } from "../domain/session/run.ts";
import { type StageRecord, stageRecords } from "../domain/session/summary.ts";
import { clockMinute, clockTime, dateOf, showDate } from "../domain/timing/clock-text.ts";
import { plain, showDuration, showUnits } from "../domain/units/show.ts";
import { answer, type Json, type Reply } from "../reply/reply.ts";
import { filmJson } from "./film-load.ts";
import { sheetById } from "./sheets.ts";

export const summaryValues: Readonly<Record<string, string>> = {
  run: "id of the run",
  tank: "its name",
  sheet: "the sheet it followed",
  state: "running, done, stopped, or by the clock when the end was not confirmed",
  stages:
    "one entry a bath: bath, sense, planned_s, real_s, start and end (ISO), plus_minus_s, skipped, out_by_clock, aim_c, readings_c (corrected), read_c (as shown), unverified (how many readings)",
  units: "film in units of 80 sq in",
  film: "formats and counts",
  bottles: "one entry a bottle: bottle, bath, before_units, after_units",
  rehearsal_speed: "how many times faster it ran; missing for a real run",
  push: "stops of push, negative for a pull; missing when there was none",
  count_confirmed: "true when the count was read back and found right",
  deviations: "one sentence each",
  notes: "notes of the run; missing when shared",
};

/** A run as a person reads it, and as values. Notes are private: they stay out of what is shared. */
export function summaryOf(bench: Bench, run: Run, how: { readonly private: boolean }): Reply {
  const records = stageRecords(run);
  const deviations = records.flatMap((record) => record.deviations);
  const sheet = sheetById(bench, run.sheet)?.name ?? run.sheet;
  const state = run.ending ?? "running";
  const counted = run.counted.flatMap(({ bottle, before, after }) => {
    const found = bench.bottles[bottle];
    return found === undefined
      ? []
      : [{ bottle: found.name, bath: found.bath, before_units: before, after_units: after }];
  });
  const notes = run.notes.map(({ text }) => text);
  const lines = [
    `${showDate(dateOf(run.plannedAt, bench.zone))}, ${clockMinute(run.plannedAt, bench.zone)}, ${run.process} by the ${sheet} sheet; ${endWords[state]}`,
    `Film: ${showFilm(run.film)}${run.film.length === 0 ? "" : `, ${showUnits(filmUnits(run.film))}`}${run.formatAssumed ? " (format assumed)" : ""}${run.push === undefined ? "" : `; ${showStops(run.push)}`}`,
    ...records.map((record) => stageLine(bench, record)),
    ...run.stages.flatMap(({ bath, corrections }) =>
      (corrections ?? []).map(({ kind, how }) => `${bath}, ${kind}: ${how}`),
    ),
    ...unverifiedLines(run),
    ...(how.private &&
    run.counted.length > 0 &&
    run.countConfirmed !== true &&
    run.endedAt !== undefined
      ? ["Count: unconfirmed, the higher figure stands; say count is right."]
      : []),
    ...counted.map(
      ({ bottle, bath, before_units, after_units }) =>
        `Bottle ${bottle} (${bath}): ${plain(before_units, 2)} to ${plain(after_units, 2)} units`,
    ),
    ...(deviations.length === 0
      ? ["Deviations: none"]
      : deviations.map((deviation) => `Deviation: ${deviation}`)),
    ...(how.private ? notes.map((note) => `Note: ${note}`) : []),
  ];
  const load = filmUnits(run.film);
  return answer({
    title: `${run.tank}: ${run.title}, summary`,
    lines,
    say: `${run.tank}: ${endWords[state]}, ${deviations.length} deviation${deviations.length === 1 ? "" : "s"}.`,
    figures: {
      stages: { value: records.map(stageJson), origin: { kind: "own log" } },
      units: {
        value: load,
        origin: run.film.length > 0 ? areaOrigin(run.film) : { kind: "own log" },
      },
      bottles: { value: counted, origin: { kind: "own log" } },
    },
    facts: {
      run: run.id,
      tank: run.tank,
      sheet,
      state,
      film: filmJson(run.film),
      ...(run.push === undefined ? {} : { push: run.push }),
      ...(run.rehearsal === undefined ? {} : { rehearsal_speed: run.rehearsal.speed }),
      count_confirmed: run.countConfirmed === true,
      deviations: [...deviations],
      ...(how.private ? { notes } : {}),
    },
    cautions:
      how.private || notes.length === 0
        ? []
        : [`Left out: ${notes.length} private note${notes.length === 1 ? "" : "s"}.`],
  });
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Why readings cannot be fully trusted, each reason once. */
const unverifiedLines = ({ readings }: Run): readonly string[] => [
  ...new Set(
    readings.flatMap(({ unverified, thermometer }) => {
      if (unverified === undefined) return [];
      return [
        thermometer === undefined
          ? `Readings: ${lower(unverified)}`
          : `Readings on the ${thermometer} thermometer: ${lower(unverified)}`,
      ];
    }),
  ),
];

const endWords: Readonly<Record<string, string>> = {
  running: "still running",
  done: "done",
  stopped: "stopped",
  "by the clock": "ended by the clock, not confirmed",
};

function stageLine(bench: Bench, record: StageRecord): string {
  if (record.skipped) return `${record.bath}: skipped`;
  const sense = record.sense === "exact" ? "exactly" : "at least";
  const moved = record.meant === undefined ? "" : `${showDuration(record.meant)}, moved to `;
  const planned = `planned ${sense} ${moved}${showDuration(record.planned)}`;
  const real =
    record.real === undefined
      ? record.start === undefined
        ? "not done"
        : "in now"
      : `real ${showDuration(record.real)}${record.plusMinus === undefined ? "" : ` ±${plain(record.plusMinus, 0)} s`}`;
  const from = record.start === undefined ? "" : `, in ${clockTime(record.start, bench.zone)}`;
  const read =
    record.readings.length === 0 ? "" : `, read ${record.readings.map(showReading).join(", ")} °C`;
  return `${record.bath}: ${planned}, ${real}${from}${read}`;
}

/** Both values where they differ, and a mark where the thermometer's offset is not known. */
function showReading({ temperature, read, thermometer, unverified }: ReadingTaken): string {
  const shown = read ?? temperature;
  const both =
    Math.abs(shown - temperature) < 1e-9
      ? plain(temperature, 1)
      : `${plain(temperature, 2)} (shown ${plain(shown, 1)})`;
  return `${both}${unverified === undefined || thermometer === undefined ? "" : " (unverified)"}`;
}

const isoOf = (at: StageRecord["start"]): string | null =>
  at === undefined ? null : Temporal.Instant.fromEpochMilliseconds(Math.round(at)).toString();

const stageJson = (record: StageRecord): Json => ({
  bath: record.bath,
  sense: record.sense,
  planned_s: record.planned,
  real_s: record.real ?? null,
  start: isoOf(record.start),
  end: isoOf(record.end),
  plus_minus_s: record.plusMinus ?? 0,
  skipped: record.skipped,
  out_by_clock: record.outByClock,
  aim_c: record.aim ?? null,
  readings_c: record.readings.map((reading) => reading.temperature),
  read_c: record.readings.map((reading) => reading.read ?? reading.temperature),
  unverified: record.readings.filter((reading) => reading.unverified !== undefined).length,
});
