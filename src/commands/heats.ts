import { z } from "zod";
import { type Degrees, fromFahrenheit } from "../domain/units/conversions.ts";
import { type Celsius, celsius } from "../domain/units/quantity.ts";
import { plain } from "../domain/units/show.ts";
import { type Reply, refuse } from "../reply/reply.ts";

/** A temperature as it was said; the message is the question asked when it is missing. */
export const heatField = (question: string) =>
  z.object({ degrees: z.number(), scale: z.enum(["C", "F"]).optional() }, question);
export type Heat = z.output<ReturnType<typeof heatField>>;

/** Hotter than any target in a darkroom, °C: above it a bare number is Fahrenheit. Common practice, no source. */
const HOTTEST_TARGET = 59;
const MOST_DEGREES = 1000;

export type Scaled = {
  of(heat: Heat): Celsius;
  /** What was taken for granted about the scale. */
  readonly assumed?: string | undefined;
};

/**
 * One scale for the temperatures of one sentence that name none: the scale another one names, else
 * the bench's habit, else Fahrenheit where the target or a supply could not be Celsius and none
 * would be ice.
 *
 * @param target  where the water should land
 * @param others  the supplies and the rest
 */
export function oneScale(
  target: Heat,
  others: readonly Heat[],
  habit: Degrees | undefined,
): Scaled | { readonly reply: Reply } {
  const all = [target, ...others];
  const wild = all.find(({ degrees }) => Math.abs(degrees) > MOST_DEGREES);
  if (wild !== undefined) {
    return {
      reply: refuse(
        "out-of-range",
        `I read ${plain(wild.degrees, 1)} degrees: give a temperature of water.`,
        {
          say: "That is no temperature of water. Give another.",
        },
      ),
    };
  }
  const named = all.find(({ scale }) => scale !== undefined)?.scale;
  const tooHot = target.degrees > HOTTEST_TARGET || all.some(({ degrees }) => degrees > 100);
  const ice = all.some(({ degrees }) => degrees < 32);
  const scale = named ?? habit ?? (tooHot && !ice ? "F" : "C");
  const silent = all.some((heat) => heat.scale === undefined);
  return {
    of: (heat) =>
      (heat.scale ?? scale) === "C" ? celsius(heat.degrees) : fromFahrenheit(heat.degrees),
    assumed: silent
      ? `Degrees without a scale taken as ${scale === "C" ? "Celsius" : "Fahrenheit"}.`
      : undefined,
  };
}
