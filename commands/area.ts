import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { of, worked } from "../src/commands/figures.ts";
import {
  areaOrigin,
  type Film,
  type FilmFormat,
  filmArea,
  filmFormats,
  filmUnits,
  showFilm,
  UNIT_IN2,
} from "../src/domain/film/load.ts";
import { isWeak, showOrigin } from "../src/domain/origin.ts";
import { areaToCm2 } from "../src/domain/units/conversions.ts";
import { plain, showArea, showUnits } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

const load = z.object({
  format: z.enum([...filmFormats, "135"]).optional(),
  count: z
    .number()
    .int("Give a whole number of rolls or sheets.")
    .min(1, "Give at least one roll or sheet.")
    .max(1000, "More than 1000 rolls are no bench's load. Give fewer."),
  shape: z.literal("sheet").optional(),
});

export const areaCommand = defineCommand({
  name: "area",
  summary: "How much film a load is: square inches, and units of 80 square inches.",
  topic: "arithmetic",
  sentences: [
    "[what is|how much is|how big is] [the] area (of|for|is) {film}",
    "how many units (is|are|in|do|does|for|make|makes) [a] {film} [make|count|have]",
    "[what is|how much is|how big is] [the] {film} (in units|in square inches|in area)",
    "how much (area|film) (is|are|in|does|do) {film} [make|have]",
    "[film] units (of|for|in) {film}",
    "(count|area|units|how many units)",
  ],
  examples: ["how many units are two 120 and a 135", "area of four 4x5"],
  fields: z.object({
    film: z
      .array(load, "Which film? Say it like two 120 and a 135.")
      .min(1, "Name at least one film."),
  }),
  changes: false,
  values: {
    area_in2: "area of the load, sq in",
    area_cm2: "the same, sq cm",
    units: "the same in units of 80 sq in",
    film: "one entry a format: format, count",
    assumed: "formats that were taken for granted, in words; missing when none was",
  },
  run(_, { film }) {
    if (film.some(({ format, shape }) => format === undefined && shape === "sheet")) {
      const sized = (["4x5", "5x7", "8x10"] as const).map((format) => ({
        word: format,
        value: film.map(({ shape, ...one }) =>
          withFormat(one, shape === "sheet" ? format : undefined),
        ),
      }));
      return askFor("area", { film }, "film", "What size are the sheets: 4x5, 5x7 or 8x10?", sized);
    }
    const films: Film[] = film.map(({ format, count }) => ({ count, format: meant(format) }));
    const assumed = [
      ...(film.some(({ format }) => format === "135") ? ["135 taken as 36 exposures"] : []),
      ...(film.some(({ format }) => format === undefined)
        ? ["no format named, taken as 135 with 36 exposures"]
        : []),
    ];
    const area = filmArea(films);
    const units = filmUnits(films);
    const origin = areaOrigin(films);
    return answer({
      title: `${showFilm(films)}: ${showUnits(units)}`,
      lines: [
        `${showArea(area)}, ${plain(areaToCm2(area), 0)} sq cm; a unit is ${UNIT_IN2} sq in`,
        ...assumed.map((one) => `${one.charAt(0).toUpperCase()}${one.slice(1)}.`),
      ],
      say: `${showUnits(units)}, ${plain(area, 0)} square inches.`,
      figures: {
        area_in2: of(area, origin),
        area_cm2: worked(areaToCm2(area), "sq in times 6.4516"),
        units: worked(units, "area over 80 sq in"),
      },
      facts: {
        film: films.map((one) => ({ ...one })),
        ...(assumed.length === 0 ? {} : { assumed: assumed.join("; ") }),
      },
      cautions: isWeak(origin) ? ["One of these areas is from memory, not read."] : [],
      working: [
        ...films.map(
          (one) =>
            `${showFilm([one])}: ${showArea(filmArea([one]))} (${showOrigin(areaOrigin([one]))}).`,
        ),
        `Units: ${plain(area, 1)} / ${UNIT_IN2} = ${plain(units, 3)}.`,
      ],
    });
  },
});

/** A film as a raw field, its size filled in where it had none. */
const withFormat = (
  { count, format }: { readonly count: number; readonly format?: string | undefined },
  missing: string | undefined,
): { readonly [key: string]: string | number } => {
  const known = format ?? missing;
  return known === undefined ? { count } : { count, format: known };
};

const meant = (format: FilmFormat | "135" | undefined): FilmFormat =>
  format === undefined || format === "135" ? "135-36" : format;
