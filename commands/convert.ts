import { z } from "zod";
import { volumeField } from "../src/commands/amounts.ts";
import {
  convertArea,
  convertDifference,
  convertHeat,
  convertMass,
  convertVolume,
} from "../src/commands/convert-answer.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { heatField, oneScale } from "../src/commands/heats.ts";
import { celsiusDifference, grams, squareInches } from "../src/domain/units/quantity.ts";
import { refuse } from "../src/reply/reply.ts";

/** The ways to ask for one thing in another unit. */
const ways = (from: string, to: string): readonly string[] => [
  `convert ${from} (to|into|in|as) ${to}`,
  `[what is|what are|how much is|how much are|how hot is|how warm is|how cold is] ${from} (in|to|into|as) ${to}`,
  `how many ${to} (is|are|in|are in|are there in|make|go into) ${from}`,
];

const volumeUnits = [
  "mL",
  "L",
  "fl oz",
  "pint",
  "quart",
  "gallon",
  "cup",
  "dram",
  "minim",
] as const;

export const convertCommand = defineCommand({
  name: "convert",
  summary: "One unit in another: volume, weight, temperature, difference, area.",
  topic: "arithmetic",
  sentences: [
    ...ways("{volume}", "{toVolume}"),
    ...ways("{mass}", "{toMass}"),
    ...ways("{heat}", "{degrees}"),
    ...ways("[a] (difference|tolerance) [of] {difference}", "{degrees}"),
    ...ways(
      "{difference} (difference|tolerance|warmer|colder|higher|lower|off|more|less)",
      "{degrees}",
    ),
    "[convert|what is|how much is] {difference} (in|to|as) {degrees}",
    ...ways("{area}", "{toArea}"),
    ...ways("{mass}", "{toVolume}"),
    ...ways("{volume}", "{toMass}"),
    "convert",
  ],
  slots: { toVolume: "volumeUnit", toMass: "massUnit", toArea: "areaUnit" },
  examples: ["convert 20 us fl oz to ml", "what is 100 f in c", "1 degree f difference in c"],
  fields: z.object({
    volume: volumeField("Which volume, with its unit?").optional(),
    mass: z.number("Which weight, with its unit?").transform(grams).optional(),
    heat: heatField("Which temperature?").optional(),
    difference: z.number("Which difference?").transform(celsiusDifference).optional(),
    area: z.number("Which area, with its unit?").transform(squareInches).optional(),
    toVolume: z
      .object({ name: z.enum(volumeUnits), country: z.enum(["us", "imperial"]).optional() })
      .optional(),
    toMass: z.enum(["g", "kg", "oz", "lb", "grain", "mg"]).optional(),
    degrees: z.enum(["C", "F"]).optional(),
    toArea: z.enum(["in2", "cm2"]).optional(),
  }),
  changes: false,
  values: {
    kind: "volume, mass, temperature, difference or area",
    ml: "the volume, mL",
    fl_oz_us: "the volume, US fl oz",
    fl_oz_imperial: "the volume, Imperial fl oz",
    g: "the mass, g",
    oz: "the mass, avoirdupois ounces",
    grains: "the mass, grains",
    c: "the temperature, °C; of a difference, Celsius degrees",
    f: "the temperature, °F; of a difference, Fahrenheit degrees",
    in2: "the area, sq in",
    cm2: "the area, sq cm",
  },
  run({ bench }, wanted) {
    const { volume, mass, heat, difference, area, toVolume, toMass, degrees, toArea } = wanted;
    if (volume !== undefined && toVolume !== undefined) {
      return convertVolume(volume, toVolume.name, toVolume.country ?? bench.country);
    }
    if (mass !== undefined && toMass !== undefined) return convertMass(mass, toMass);
    if (difference !== undefined && degrees !== undefined)
      return convertDifference(difference, degrees);
    if (area !== undefined && toArea !== undefined) return convertArea(area, toArea);
    if (heat !== undefined && degrees !== undefined) {
      // "38 in f" can only mean the other scale.
      const scale = heat.scale ?? (degrees === "F" ? "C" : "F");
      const scaled = oneScale({ ...heat, scale }, [], undefined);
      return "reply" in scaled ? scaled.reply : convertHeat(scaled.of({ ...heat, scale }), degrees);
    }
    if (toMass !== undefined || toVolume !== undefined) {
      return refuse(
        "needs-density",
        "A volume and a weight are two things: between them I would need the density.",
        {
          say: "Between volume and weight I would need the density.",
        },
      );
    }
    return refuse("nothing-to-convert", "Say what in which unit, like 20 US fluid ounces in ml.");
  },
});
