import { z } from "zod";
import type { Origin } from "../origin.ts";
import { type SquareInches, squareInches, type Units, units } from "../units/quantity.ts";
import { plain } from "../units/show.ts";
import { storedNumber } from "../units/stored.ts";

export const filmFormats = [
  "135-36",
  "135-24",
  "135-12",
  "120",
  "220",
  "4x5",
  "5x7",
  "8x10",
] as const;
export type FilmFormat = (typeof filmFormats)[number];

/** One unit is 80 square inches: a 36-exposure 135 roll, a 120 roll, four 4x5 in or one 8x10 in sheet. */
export const UNIT_IN2 = 80;

const counting =
  "The Darkroom Cookbook, 3rd ed., p. 108, 80 sq in unit (read); which films make one, from memory";
const areas: Record<FilmFormat, { readonly in2: number; readonly origin: Origin }> = {
  "135-36": { in2: 80, origin: { kind: "published", source: counting } },
  "135-24": { in2: 56, origin: { kind: "common practice", source: "about 0.7 of a 36 roll" } },
  "135-12": { in2: 32, origin: { kind: "common practice", source: "about 0.4 of a 36 roll" } },
  "120": { in2: 80, origin: { kind: "published", source: counting } },
  "220": {
    in2: 160,
    origin: { kind: "from memory", source: "ISO 732:2000, 220 is twice the length of 120" },
  },
  "4x5": { in2: 20, origin: { kind: "published", source: counting } },
  "5x7": { in2: 35, origin: { kind: "computed", source: "5 in by 7 in" } },
  "8x10": { in2: 80, origin: { kind: "published", source: counting } },
};

export const filmSchema = z.object({
  format: z.enum(filmFormats),
  count: storedNumber.int().positive(),
  /** A sheet of another size, in: its area counts, and `format` is the next larger one with a name. */
  size: z.object({ wide: storedNumber.positive(), high: storedNumber.positive() }).optional(),
});
export type Film = z.infer<typeof filmSchema>;

/** Area of a load of film, sq in. */
export const filmArea = (load: readonly Film[]): SquareInches =>
  squareInches(load.reduce((sum, film) => sum + film.count * pieceArea(film), 0));

const pieceArea = ({ format, size }: Film): number =>
  size === undefined ? areas[format].in2 : size.wide * size.high;

/** The named sheet a sheet of another size lies inside, for holders and tanks; else the largest. */
export function sheetAround({ wide, high }: NonNullable<Film["size"]>): FilmFormat {
  const [short, long] = [Math.min(wide, high), Math.max(wide, high)];
  if (short <= 4 && long <= 5) return "4x5";
  return short <= 5 && long <= 7 ? "5x7" : "8x10";
}

/** The same load in units of 80 sq in. */
export const filmUnits = (load: readonly Film[]): Units => units(filmArea(load) / UNIT_IN2);

/** Where the area of a load comes from: the weakest of its formats' sources. */
export function areaOrigin(load: readonly Film[]): Origin {
  const weakest = ["from memory", "common practice", "computed", "published"];
  const origins = load.map(
    ({ format, size }): Origin =>
      size === undefined
        ? areas[format].origin
        : { kind: "computed", source: "side by side of the sheet" },
  );
  for (const kind of weakest) {
    const found = origins.find((origin) => origin.kind === kind);
    if (found !== undefined) return found;
  }
  return { kind: "published", source: counting };
}

/** Formats of single rolls as a load. */
export function togetherOf(formats: readonly FilmFormat[]): readonly Film[] {
  const counts = new Map<FilmFormat, number>();
  for (const format of formats) counts.set(format, (counts.get(format) ?? 0) + 1);
  return [...counts].map(([format, count]) => ({ format, count }));
}

const isSheet = (format: FilmFormat): boolean => format.includes("x");

export function showFilm(load: readonly Film[]): string {
  if (load.length === 0) return "no film";
  return load
    .map(({ format, count, size }) => {
      const noun = isSheet(format) ? "sheet" : "roll";
      const what =
        size === undefined ? format : `${plain(size.wide, 2)} by ${plain(size.high, 2)} in`;
      return `${count} ${noun}${count === 1 ? "" : "s"} of ${what}`;
    })
    .join(" and ");
}

export const rollCount = (load: readonly Film[]): number =>
  load.reduce((sum, film) => sum + film.count, 0);
