import { showFilm } from "../domain/film/load.ts";
import { showStops } from "../domain/process/push-time.ts";
import type {
  SessionStage,
  SessionSummary,
  SharedSession,
} from "../domain/record/session-schema.ts";
import { clockTime, showAge, showDate } from "../domain/timing/clock-text.ts";
import { instant, seconds, units } from "../domain/units/quantity.ts";
import { plain, showDuration, showUnits } from "../domain/units/show.ts";

/** Either form of a session: words are the same, and what is private is there or it is not. */
export type AnySession = SharedSession & { readonly private?: SessionSummary["private"] };

export const endWords: Readonly<Record<SharedSession["state"], string>> = {
  running: "still running",
  done: "done",
  stopped: "stopped",
  "by the clock": "ended by the clock, not confirmed",
};

/** "28 November 2026, 19:00, C-41 by the garden sheet; done". */
export const headWords = (session: AnySession): string =>
  `${showDate(session.date)}, ${session.clock}, ${session.process} by the ${session.sheet.name} sheet; ${endWords[session.state]}`;

/** "2 rolls of 120, 2 units (format assumed); pushed 1 stop". */
export function filmWords({ film, units: load, format_assumed, push }: AnySession): string {
  const shown = film.map(({ format, count, wide_in, high_in }) =>
    wide_in === undefined || high_in === undefined
      ? { format, count }
      : { format, count, size: { wide: wide_in, high: high_in } },
  );
  const much = film.length === 0 ? "" : `, ${showUnits(units(load))}`;
  const assumed = format_assumed ? " (format assumed)" : "";
  return `${showFilm(shown)}${much}${assumed}${push === 0 ? "" : `; ${showStops(push)}`}`;
}

export const length = (s: number): string => showDuration(seconds(s));

/** "exactly 3:25", "at least 3:10, moved to 3:40". */
export function plannedWords({ sense, planned_s, moved_s }: SessionStage): string {
  const exactly = sense === "exact" ? "exactly" : "at least";
  return moved_s === null
    ? `${exactly} ${length(planned_s)}`
    : `${exactly} ${length(planned_s)}, moved to ${length(moved_s)}`;
}

/** "3:23", "3:23 ±10 s", "not done", "in now", "skipped". */
export function realWords(stage: SessionStage): string {
  if (stage.skipped) return "skipped";
  if (stage.real_s === null) return stage.real_from_s === null ? "not done" : "in now";
  const give = stage.plus_minus_s === 0 ? "" : ` ±${plain(stage.plus_minus_s, 0)} s`;
  return `${length(stage.real_s)}${give}`;
}

/** Both values where they differ, and a mark where the thermometer's offset is not known. */
export function readingWords({
  temp_c,
  read_c,
  thermometer,
  unverified,
}: SessionStage["readings"][number]): string {
  const both =
    Math.abs(read_c - temp_c) < 1e-9
      ? plain(temp_c, 1)
      : `${plain(temp_c, 2)} (shown ${plain(read_c, 1)})`;
  return `${both}${unverified === null || thermometer === null ? "" : " (unverified)"}`;
}

/** "5 of 6 beats told", or nothing where none was wanted or the bath is not over. */
export function beatsWords({ beats, real_s }: SessionStage): string | undefined {
  if (beats === null || real_s === null) return undefined;
  const due = beats.planned_s.filter((at) => at <= real_s).length;
  return `${beats.given_s.length} of ${due} beat${due === 1 ? "" : "s"} told`;
}

/** When a bath went in: by the bench's wall clock, or from the first pour where that is private. */
export function inWords({ private: own }: AnySession, from: number): string {
  if (own === undefined)
    return `at +${from < 60 ? `0:${String(Math.round(from)).padStart(2, "0")}` : length(from)}`;
  const began = Temporal.Instant.from(own.began_at).epochMilliseconds;
  return clockTime(instant(began + from * 1000), own.zone);
}

export const bottleWords = ({
  bottle,
  bath,
  before_units,
  after_units,
  age_days,
}: SharedSession["bottles"][number]): string =>
  `${bottle} (${bath}): ${plain(before_units, 2)} to ${plain(after_units, 2)} units, ${showAge(age_days)}`;

const numbers = { crisp: "numbers crisp", faint: "numbers faint", missing: "numbers missing" };
const clear = {
  clear: "clear parts clear",
  cloudy: "clear parts cloudy",
  tinted: "clear parts tinted",
};
const rebate = { sound: "rebate as it should be", fogged: "rebate fogged" };
const place = {
  nothing: "no streaks or spots",
  same: "marks at the same place on each frame",
  different: "marks at different places",
};

/** What was seen of the dry film, in one line. */
export function lookWords(look: NonNullable<SharedSession["first_look"]>): string {
  const { edge_numbers, clear_parts, same_on_all, edge_rgb, grey_rgb } = look;
  const rgb = (name: string, value: typeof edge_rgb): readonly string[] =>
    value === null
      ? []
      : [
          `${name} ${[value.red, value.green, value.blue].map((one) => plain(one, 1)).join(" ")} of ${plain(value.most, 0)}`,
        ];
  const seen = [
    ...(edge_numbers === null ? [] : [numbers[edge_numbers]]),
    ...(clear_parts === null ? [] : [clear[clear_parts]]),
    ...(look.rebate === null ? [] : [rebate[look.rebate]]),
    ...(same_on_all === null
      ? []
      : [same_on_all ? "the same on all rolls" : "not the same on all"]),
    ...(look.place === null ? [] : [place[look.place]]),
    ...rgb("edge", edge_rgb),
    ...rgb("grey", grey_rgb),
  ];
  return `${showDate(look.on)}: ${seen.join(", ")}`;
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Why readings cannot be fully trusted, each reason once. */
export const unverifiedWords = ({ stages }: AnySession): readonly string[] => [
  ...new Set(
    stages.flatMap(({ readings }) =>
      readings.flatMap(({ unverified, thermometer }) => {
        if (unverified === null) return [];
        const on = thermometer === null ? "" : ` on the ${thermometer} thermometer`;
        return [`Readings${on}: ${lower(unverified)}`];
      }),
    ),
  ),
];

/** Who did what, where it was more than one. */
export const peopleWords = ({ private: own }: AnySession): readonly string[] =>
  own === undefined || own.people.length < 2
    ? []
    : own.people.map(({ name, did }) => `${name} ${did.join(", ")}`);
