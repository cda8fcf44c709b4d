import { z } from "zod";
import { type Film, type FilmFormat, filmFormats, sheetAround } from "../domain/film/load.ts";
import type { Json, Option } from "../reply/reply.ts";
import { toJson } from "./define-command.ts";

/** No sheet film is smaller than a stamp or larger than a door, in. */
const side = z
  .number()
  .min(0.5, "A sheet measures half an inch or more. Give its sides with their unit.")
  .max(40, "No sheet is that large. Give its sides with their unit, like 9x12 cm.");

/** A load of film as it was said: a format may be missing, or only half said. */
export const filmLoad = (most: number, tooMany: string) =>
  z
    .array(
      z.object({
        format: z.enum([...filmFormats, "135"]).optional(),
        count: z
          .number()
          .int("Give a whole number of rolls or sheets.")
          .min(1, "Give at least one roll or sheet.")
          .max(most, tooMany),
        shape: z.literal("sheet").optional(),
        size: z.object({ wide: side, high: side }).optional(),
      }),
      "Which film? Say it like two 120 and a 135.",
    )
    .min(1, "Name at least one film.");

export type SaidFilm = z.output<ReturnType<typeof filmLoad>>;

export type SettledFilm =
  | { readonly film: readonly Film[]; readonly assumed: readonly string[] }
  | { readonly ask: string; readonly options: readonly Option[] };

const meant = (format: SaidFilm[number]["format"]): FilmFormat =>
  format === undefined || format === "135" ? "135-36" : format;

/**
 * What was said as formats. A roll without exposures is taken as the 36 it most often is, and
 * that is said; sheets have no usual size and are asked about.
 */
export function settleFilm(said: SaidFilm): SettledFilm {
  if (said.some(({ format, shape }) => format === undefined && shape === "sheet")) {
    const options = (["4x5", "5x7", "8x10"] as const).map((format) => {
      const film = said.map(({ shape, ...one }) =>
        one.format === undefined && shape === "sheet" ? { ...one, format } : one,
      );
      return { word: format, value: toJson({ film }).film ?? [] };
    });
    return { ask: "What size are the sheets: 4x5, 5x7 or 8x10?", options };
  }
  return {
    film: said.map(({ format, count, size }) =>
      size === undefined
        ? { count, format: meant(format) }
        : { count, format: sheetAround(size), size },
    ),
    assumed: [
      ...(said.some(({ format }) => format === "135") ? ["135 taken as 36 exposures"] : []),
      ...(said.some(({ format, size }) => format === undefined && size === undefined)
        ? ["no format named, taken as 135 with 36 exposures"]
        : []),
    ],
  };
}

/** A load as it stands in `values.film`: format, count, and the sides in inches where it has no name. */
export const filmJson = (film: readonly Film[]): Json =>
  film.map(({ format, count, size }) =>
    size === undefined
      ? { format, count }
      : { format, count, wide_in: size.wide, high_in: size.high },
  );
