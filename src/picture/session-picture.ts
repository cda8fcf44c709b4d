import { showFilm } from "../domain/film/load.ts";
import type { SharedSession } from "../domain/record/session-schema.ts";
import { showAge, showDate } from "../domain/timing/clock-text.ts";
import { units } from "../domain/units/quantity.ts";
import { plain, showUnits } from "../domain/units/show.ts";
import { type Look, looks, type Shape, soft } from "./look.ts";
import {
  heading,
  inverted,
  type Piece,
  paragraph,
  partName,
  sheetOfPaper,
} from "./sheet-of-paper.ts";
import type { Picture } from "./temperature-chart.ts";
import { rowLegend, timeRows, timeScale } from "./time-rows.ts";
import { trace, traceLegend } from "./trace.ts";

/**
 * One session on one picture: its line of time planned and real with the beats, the temperatures
 * against their bands, film and bottles, what differed, and one lesson.
 *
 * @param words  the same in words, for those who do not see the picture
 */
export function sessionPicture(
  session: SharedSession,
  words: readonly string[],
  shape: Shape,
): Picture {
  const look = looks[shape];
  const width = look.width - look.margin * 2;
  const x = look.margin;
  const scale = timeScale(session, look);
  const parts: string[] = [];
  const add = ({ drawn, bottom }: Piece, gap = look.small * 0.5): number => {
    parts.push(drawn);
    return bottom + gap;
  };
  const legend = (text: string, y: number): Piece =>
    paragraph([text], { x, y, width, size: look.small * 0.9, fill: soft });

  let y = add(heading(look, titleOf(session), [underOf(session)], marksOf(session)));
  y = add(partName(look, "Baths, from the first pour", x, y, width));
  y = add(timeRows(session, look, scale, y), look.small * 0.2);
  for (const text of rowLegend(session)) y = add(legend(text, y));
  y = add(partName(look, "Temperature, °C", x, y, width));
  const traced = trace(session, look, scale, y);
  y = add(traced, look.small * 0.2);
  if (traced.unwritten.length > 0) {
    y = add(legend(`Too close to write beside: ${traced.unwritten.join("; ")} °C`, y), 0);
  }
  if (session.stages.some(({ readings }) => readings.length > 0)) {
    y = add(legend(traceLegend(session), y));
  }
  y = columnsOf(session, look, y, add);
  y = add(inverted(`One lesson: ${session.lesson.text}`, { x, y, width, size: look.text }));
  const height = Math.ceil(Math.max(look.leastHeight, y + look.margin * 0.6));
  return sheetOfPaper(look, height, titleOf(session), words, parts.join(""));
}

const titleOf = ({ tank, title }: SharedSession): string => `${tank}: ${title}`;

const states: Readonly<Record<SharedSession["state"], string>> = {
  running: "still running",
  done: "done",
  stopped: "stopped",
  "by the clock": "ended by the clock",
};

const underOf = ({ date, clock, process, sheet, state }: SharedSession): string =>
  `${showDate(date)}, ${clock}; ${process} by the ${sheet.name} sheet; ${states[state]}`;

const marksOf = ({ rehearsal_speed, sheet, nothing_in }: SharedSession): readonly string[] => [
  ...(rehearsal_speed === null
    ? []
    : ["REHEARSAL with water and a scrap roll. Nothing is counted."]),
  ...(sheet.invented ? ["INVENTED figures: never develop real film by them."] : []),
  ...(nothing_in ? ["No film went in. Nothing is counted."] : []),
];

/** Film and bottles on the left, what differed on the right; one below the other on a phone. */
function columnsOf(
  session: SharedSession,
  look: Look,
  top: number,
  add: (piece: Piece) => number,
): number {
  const whole = look.width - look.margin * 2;
  const gap = look.gap;
  const width = look.brief ? whole : (whole - gap) / 2;
  const column = (name: string, texts: readonly string[], x: number, y: number): number => {
    const below = add(partName(look, name, x, y, width));
    return add(
      paragraph(texts, { x, y: below - look.small * 0.5, width, size: look.small, most: 9 }),
    );
  };
  const left = column("Film and bottles", filmLines(session), look.margin, top);
  const right = look.brief ? look.margin : look.margin + width + gap;
  const end = column("What differed", differedLines(session), right, look.brief ? left : top);
  return Math.max(left, end) + look.small * 0.3;
}

function filmLines({ film, units: load, bottles, push }: SharedSession): readonly string[] {
  const shown = film.map(({ format, count, wide_in, high_in }) =>
    wide_in === undefined || high_in === undefined
      ? { format, count }
      : { format, count, size: { wide: wide_in, high: high_in } },
  );
  const pushed = push === 0 ? "" : `, ${push > 0 ? "push" : "pull"} ${Math.abs(push)}`;
  return [
    film.length === 0 ? "No film named." : `${showFilm(shown)}: ${showUnits(units(load))}${pushed}`,
    ...bottles.map(
      ({ bottle, mark, bath, before_units, after_units, age_days }) =>
        `${bottle} (${mark}), ${bath}: ${plain(before_units, 2)} to ${plain(after_units, 2)} units, ${showAge(age_days)}`,
    ),
    ...(bottles.length === 0 ? ["No bottle was counted."] : []),
  ];
}

function differedLines({ deviations, odd, first_look }: SharedSession): readonly string[] {
  const lines = [...deviations, ...odd];
  return [
    ...(lines.length === 0 ? ["Nothing that was logged."] : lines),
    ...(first_look === null || first_look.edge_numbers === null
      ? []
      : [`First look: edge numbers ${first_look.edge_numbers}.`]),
  ];
}
