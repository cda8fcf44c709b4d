import { areaOrigin } from "../domain/film/load.ts";
import { forSharing } from "../domain/record/for-sharing.ts";
import type { SessionStage } from "../domain/record/session-schema.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import { isoInstant } from "../domain/timing/clock-text.ts";
import { instant } from "../domain/units/quantity.ts";
import { answer, type Json, type Reply } from "../reply/reply.ts";
import { filmJson } from "./film-load.ts";
import { sessionOf } from "./session-of.ts";
import { sessionLines } from "./session-text.ts";
import { endWords } from "./session-words.ts";

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
  lesson: "rule, text, and because: the deviations it was made from",
  notes: "notes of the run; missing when shared",
};

/** A run as a person reads it, and as values. Notes are private: they stay out of what is shared. */
export function summaryOf(bench: Bench, run: Run, how: { readonly private: boolean }): Reply {
  const whole = sessionOf(bench, run);
  const session = how.private ? whole : forSharing(whole);
  const { deviations, state, lesson } = session;
  const notes = run.notes.map(({ text }) => text);
  const counted = session.bottles.map(({ bottle, bath, before_units, after_units }) => ({
    bottle,
    bath,
    before_units,
    after_units,
  }));
  return answer({
    title: `${session.tank}: ${session.title}, summary`,
    lines: sessionLines(session),
    say: `${session.tank}: ${endWords[state]}, ${deviations.length} deviation${deviations.length === 1 ? "" : "s"}.`,
    figures: {
      stages: {
        value: session.stages.map((stage) => stageJson(stage, whole.private.began_at)),
        origin: { kind: "own log" },
      },
      units: {
        value: session.units,
        origin: run.film.length > 0 ? areaOrigin(run.film) : { kind: "own log" },
      },
      bottles: { value: counted, origin: { kind: "own log" } },
    },
    facts: {
      run: run.id,
      tank: session.tank,
      sheet: session.sheet.name,
      state,
      film: filmJson(run.film),
      ...(session.push === 0 ? {} : { push: session.push }),
      ...(run.rehearsal === undefined ? {} : { rehearsal_speed: run.rehearsal.speed }),
      count_confirmed: session.count_confirmed,
      deviations: [...deviations],
      lesson,
      ...(how.private ? { notes } : {}),
    },
    cautions:
      how.private || notes.length === 0
        ? []
        : [`Left out: ${notes.length} private note${notes.length === 1 ? "" : "s"}.`],
  });
}

const stageJson = (stage: SessionStage, began: string): Json => {
  const at = (from: number | null): string | null =>
    from === null
      ? null
      : isoInstant(instant(Temporal.Instant.from(began).epochMilliseconds + from * 1000));
  return {
    bath: stage.bath,
    sense: stage.sense,
    planned_s: stage.moved_s ?? stage.planned_s,
    real_s: stage.real_s,
    start: at(stage.real_from_s),
    end: at(stage.real_to_s),
    plus_minus_s: stage.plus_minus_s,
    skipped: stage.skipped,
    out_by_clock: stage.out_by_clock,
    aim_c: stage.aim_c,
    readings_c: stage.readings.map(({ temp_c }) => temp_c),
    read_c: stage.readings.map(({ read_c }) => read_c),
    unverified: stage.readings.filter(({ unverified }) => unverified !== null).length,
  };
};
