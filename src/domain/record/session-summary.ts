import { filmUnits } from "../film/load.ts";
import { ownValue } from "../own-value.ts";
import { isDeveloper } from "../process/sheet.ts";
import type { Bench } from "../session/bench.ts";
import type { Run } from "../session/run.ts";
import { clockMinute, dateOf, daysBetween, isoInstant } from "../timing/clock-text.ts";
import { seconds, secondsBetween } from "../units/quantity.ts";
import { showDuration } from "../units/show.ts";
import { firstLookHints } from "./first-look-hints.ts";
import { knownPeople, knownPlaces } from "./known-names.ts";
import { lessonOf } from "./lesson.ts";
import { firstPour } from "./plan-of.ts";
import type { SessionSummary } from "./session-schema.ts";
import { stageLines } from "./stage-lines.ts";

/** What is called by the id of a sheet: its name, and whether its figures are made up. */
export type SheetNamed = (
  id: string,
) => { readonly name: string; readonly invented: boolean } | undefined;

/**
 * One session as one value: what was planned, what happened and what was said of it. Every form of
 * a session (chat, Markdown, JSON, picture) is made from this and from nothing else.
 *
 * @param run  of this bench, at hand or from its own file
 */
export function sessionSummary(bench: Bench, run: Run, sheetNamed: SheetNamed): SessionSummary {
  const zero = firstPour(run);
  const date = dateOf(zero, bench.zone);
  const stages = stageLines(run, (id) => ownValue(bench.bottles, id)?.name);
  const seen = {
    schema: "wetside-session" as const,
    version: 1 as const,
    run: run.id,
    tank: run.tank,
    title: run.title,
    process: run.process,
    date,
    clock: clockMinute(zero, bench.zone),
    state: run.ending ?? ("running" as const),
    rehearsal_speed: run.rehearsal?.speed ?? null,
    nothing_in: run.nothingIn === true,
    sheet: sheetNamed(run.sheet) ?? { name: run.sheet, invented: false },
    rules: rulesOf(run),
    film: run.film.map(({ format, count, size }) =>
      size === undefined
        ? { format, count }
        : { format, count, wide_in: size.wide, high_in: size.high },
    ),
    format_assumed: run.formatAssumed,
    units: filmUnits(run.film),
    push: run.push ?? 0,
    stages: [...stages],
    plan_to_s: stages.at(-1)?.plan_to_s ?? 0,
    bottles: run.counted.flatMap(({ bottle, before, after }) => {
      const found = ownValue(bench.bottles, bottle);
      if (found === undefined) return [];
      const { name, mark, bath, mixedOn } = found;
      return [
        {
          bottle: name,
          mark,
          bath,
          before_units: before,
          after_units: after,
          mixed_on: mixedOn,
          age_days: daysBetween(mixedOn, date),
        },
      ];
    }),
    count_confirmed: run.countConfirmed === true,
    odd: [...oddOf(run)],
    deviations: stages.flatMap(({ deviations }) => deviations),
    answers: answersOf(run),
    first_look: firstLookOf(bench, run),
  };
  return { ...seen, lesson: lessonOf(seen), private: privateOf(bench, run) };
}

function rulesOf(run: Run): SessionSummary["rules"] {
  return run.stages.flatMap((stage) => {
    const { bath } = stage;
    const rule = (
      of: SessionSummary["rules"][number]["of"],
      origin: SessionSummary["rules"][number]["origin"] | undefined,
    ) => (origin === undefined ? [] : [{ bath, of, origin: plainOrigin(origin) }]);
    return [
      ...rule("time", stage.timeOrigin),
      ...rule("temperature", stage.temperatureOrigin),
      ...rule("agitation", stage.agitation?.origin),
      ...rule("vent", stage.ventOrigin),
      ...rule("pour-out", stage.drainOrigin),
    ];
  });
}

/** Without a key that holds nothing, which JSON could not keep. */
const plainOrigin = ({ kind, source }: SessionSummary["rules"][number]["origin"]) =>
  source === undefined ? { kind } : { kind, source };

/** What the bench noticed by itself beside times and temperatures. */
function oddOf(run: Run): readonly string[] {
  const zero = firstPour(run);
  const late = run.stages.flatMap(({ bath, beatsLate = [] }) =>
    beatsLate.length === 0 ? [] : [`${bath}: ${count(beatsLate.length, "beat")} told late`],
  );
  const silent = run.stages.flatMap(({ bath, beatsSilent = [] }) =>
    beatsSilent.length === 0
      ? []
      : [`${bath}: ${count(beatsSilent.length, "beat")} silent by hold`],
  );
  const troubles = (run.troubles ?? []).map(({ at, what, detail }) => {
    const into = showDuration(seconds(Math.max(0, secondsBetween(zero, at))));
    return `trouble ${into} after the first pour: ${what}. ${detail}`;
  });
  return [...troubles, ...late, ...silent];
}

const count = (many: number, noun: string): string => `${many} ${noun}${many === 1 ? "" : "s"}`;

function answersOf(run: Run): SessionSummary["answers"] {
  const developer = run.stages.findIndex(({ kind }) => isDeveloper(kind));
  const told = (which: "start" | "end"): number | null =>
    run.readings.findLast(({ stage, asked }) => stage === developer && asked === which)
      ?.temperature ?? null;
  const different = run.after?.different;
  return {
    developer_start_c: told("start"),
    developer_end_c: told("end"),
    different:
      different === undefined ? "not answered" : different === "" ? "nothing" : "something",
  };
}

function firstLookOf(bench: Bench, run: Run): SessionSummary["first_look"] {
  const look = run.firstLook;
  if (look === undefined) return null;
  const before = Object.values(bench.runs).flatMap((other) =>
    other.id !== run.id &&
    other.process === run.process &&
    other.firstLook?.edge !== undefined &&
    other.firstLook.at < look.at
      ? [other.firstLook.edge]
      : [],
  );
  return {
    on: dateOf(look.at, bench.zone),
    edge_numbers: look.edgeNumbers ?? null,
    clear_parts: look.clearParts ?? null,
    rebate: look.rebate ?? null,
    same_on_all: look.sameOnAll ?? null,
    place: look.place ?? null,
    edge_rgb: look.edge ?? null,
    grey_rgb: look.grey ?? null,
    hints: [...firstLookHints(look, before)],
  };
}

function privateOf(bench: Bench, run: Run): SessionSummary["private"] {
  const zero = firstPour(run);
  const bottles = [...new Set(run.stages.flatMap(({ bottle }) => bottle ?? []))].flatMap(
    (id) => ownValue(bench.bottles, id) ?? [],
  );
  return {
    people: (run.people ?? []).map(({ name, did }) => ({ name, did: [...did] })),
    mixed_by: bottles.map(({ name, by }) => ({ bottle: name, by })),
    names: [...new Set([...knownPeople(bench), ...(run.people ?? []).map(({ name }) => name)])],
    places: [...knownPlaces(bench)],
    zone: bench.zone,
    began_at: isoInstant(zero),
    ended_at: run.endedAt === undefined ? null : isoInstant(run.endedAt),
    notes: run.notes.map(({ at, text }) => ({ at_s: secondsBetween(zero, at), text })),
    different: run.after?.different === undefined ? null : run.after.different,
    stopped_because: run.stoppedBecause ?? null,
    rolls: (run.rolls ?? []).flatMap((id) => {
      const roll = ownValue(bench.rolls, id);
      if (roll === undefined) return [];
      const { number, name, stock, note } = roll;
      return [{ number, name: name ?? null, stock: stock ?? null, note: note ?? null }];
    }),
  };
}
