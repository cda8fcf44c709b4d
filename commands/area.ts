import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { of, worked } from "../src/commands/figures.ts";
import { filmJson, filmLoad, settleFilm } from "../src/commands/film-load.ts";
import { areaOrigin, filmArea, filmUnits, showFilm, UNIT_IN2 } from "../src/domain/film/load.ts";
import { isWeak, showOrigin } from "../src/domain/origin.ts";
import { areaToCm2 } from "../src/domain/units/conversions.ts";
import { plain, showArea, showUnits } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

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
    film: filmLoad(1000, "More than 1000 rolls are no bench's load. Give fewer."),
  }),
  changes: false,
  values: {
    area_in2: "area of the load, sq in",
    area_cm2: "the same, sq cm",
    units: "the same in units of 80 sq in",
    film: "one entry a format: format, count",
    assumed: "formats that were taken for granted, in words; missing when none was",
  },
  run(_, { film: load }) {
    const settled = settleFilm(load);
    if ("ask" in settled)
      return askFor("area", { film: load }, "film", settled.ask, settled.options);
    const { film: films, assumed } = settled;
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
        film: filmJson(films),
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
