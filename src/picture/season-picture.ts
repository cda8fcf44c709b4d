import type { Season } from "../domain/record/season.ts";
import { units } from "../domain/units/quantity.ts";
import { plain, showUnits } from "../domain/units/show.ts";
import { ink, type Look, looks, paper, rule, type Shape, soft } from "./look.ts";
import { monthShort, seasonBottle, seasonTitle } from "./season-text.ts";
import { heading, type Piece, paragraph, partName, sheetOfPaper } from "./sheet-of-paper.ts";
import { element, fitText, textWidth } from "./svg.ts";
import type { Picture } from "./temperature-chart.ts";
import { line } from "./text-line.ts";

/** No picture lists more bottles; the words have them all. */
const MOST_BOTTLES = 10;

/** A season on one picture: film by process, bottles with their cost, runs and deviations by month. */
export function seasonPicture(season: Season, words: readonly string[], shape: Shape): Picture {
  const look = looks[shape];
  const width = look.width - look.margin * 2;
  const x = look.margin;
  const parts: string[] = [];
  const add = ({ drawn, bottom }: Piece, gap = look.small * 0.5): number => {
    parts.push(drawn);
    return bottom + gap;
  };
  const under = `${season.runs} run${season.runs === 1 ? "" : "s"}, ${season.rolls} rolls or sheets, ${showUnits(units(season.units))}`;
  let y = add(heading(look, seasonTitle(season), [under], []));

  const columns = look.brief ? 1 : 2;
  const column = (width - look.gap * (columns - 1)) / columns;
  let left = add(partName(look, "Film by process", x, y, column));
  left = add(processRows(season, look, x, left, column));
  const beside = look.brief ? x : x + column + look.gap;
  let right = add(partName(look, "Bottles, cost per roll", beside, look.brief ? left : y, column));
  right = add(bottleRows(season, look, beside, right, column));

  y = add(partName(look, "Runs and deviations by month", x, Math.max(left, right), width));
  y = add(monthBars(season, look, x, y, width));
  y = add(
    paragraph(["hollow: runs; solid: deviations"], {
      x,
      y,
      width,
      size: look.small * 0.9,
      fill: soft,
    }),
  );
  const height = Math.ceil(Math.max(look.leastHeight, y + look.margin * 0.5));
  return sheetOfPaper(look, height, seasonTitle(season), words, parts.join(""));
}

/** A bar a process, with its figures behind it in words. */
function processRows(
  { processes }: Season,
  look: Look,
  x: number,
  top: number,
  width: number,
): Piece {
  const most = Math.max(...processes.map((one) => one.units), 1e-9);
  const step = look.small * 1.25 + look.bar * 1.9;
  const drawn = processes.map((one, index) => {
    const y = top + index * step;
    const figures = `${one.rolls} in ${one.runs} run${one.runs === 1 ? "" : "s"}, ${showUnits(units(one.units))}`;
    const room = width - textWidth(figures, look.small) - look.small;
    return [
      line(fitText(one.process, look.small, room), {
        x,
        y: y + look.small,
        size: look.small,
        weight: 700,
      }),
      line(figures, {
        x: x + width,
        y: y + look.small,
        size: look.small,
        fill: soft,
        anchor: "end",
      }),
      element("rect", {
        x,
        y: y + look.small * 1.35,
        width: Math.max(3, (width * one.units) / most),
        height: look.bar,
        fill: ink,
      }),
    ].join("");
  });
  return { drawn: drawn.join(""), bottom: top + processes.length * step };
}

function bottleRows({ bottles }: Season, look: Look, x: number, top: number, width: number): Piece {
  const shown = bottles.slice(0, MOST_BOTTLES).map(seasonBottle);
  const more = bottles.length - shown.length;
  return paragraph(
    [
      ...(bottles.length === 0 ? ["No bottle was poured from."] : shown),
      ...(more > 0 ? [`and ${more} more`] : []),
    ],
    { x, y: top - look.small * 0.3, width, size: look.small },
  );
}

/** Two bars a month side by side, each with its number on top. */
function monthBars({ months }: Season, look: Look, x: number, top: number, width: number): Piece {
  const most = Math.max(1, ...months.flatMap(({ runs, deviations }) => [runs, deviations]));
  const height = look.plot;
  const foot = top + look.small * 1.2 + height;
  const step = width / months.length;
  const thick = Math.min(look.bar * 2, step * 0.34);
  const each = (
    value: number,
    left: number,
    attributes: Record<string, string | number>,
  ): string =>
    value === 0
      ? ""
      : element("rect", {
          x: left,
          y: foot - (height * value) / most,
          width: thick,
          height: (height * value) / most,
          ...attributes,
        });
  const size = Math.min(look.small * 0.9, Math.max(look.small * 0.7, step * 0.4));
  let free = Number.NEGATIVE_INFINITY;
  const drawn = months.map(({ month, runs, known, deviations }, index) => {
    const middle = x + step * (index + 0.5);
    const name = monthShort(month);
    const half = textWidth(name, size) / 2;
    const named = middle - half >= Math.max(free, x - look.margin / 2);
    if (named) free = middle + half + size * 0.3;
    const number = (value: number, at: number): string =>
      value === 0 || thick < size * 0.5
        ? ""
        : line(plain(value, 0), {
            x: at,
            y: foot - (height * value) / most - size * 0.3,
            size,
            weight: 600,
            anchor: "middle",
          });
    return [
      each(runs, middle - thick * 1.08, { fill: paper, stroke: ink, "stroke-width": 2.5 }),
      each(deviations, middle + thick * 0.08, { fill: ink }),
      number(runs, middle - thick * 0.58),
      known === 0 ? "" : number(deviations, middle + thick * 0.58),
      named
        ? line(name, { x: middle, y: foot + size * 1.25, size, fill: soft, anchor: "middle" })
        : "",
    ].join("");
  });
  const ground = element("line", {
    x1: x,
    x2: x + width,
    y1: foot,
    y2: foot,
    stroke: rule,
    "stroke-width": 2,
  });
  return { drawn: ground + drawn.join(""), bottom: foot + size * 1.7 };
}
