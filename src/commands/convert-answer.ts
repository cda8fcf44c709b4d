import { mass as massAmount, volume as volumeAmount } from "../domain/mixing/amount.ts";
import { checkWanted, explainWanted } from "../domain/mixing/wanted.ts";
import {
  areaToCm2,
  type Country,
  type Degrees,
  differenceToFahrenheit,
  type MassUnit,
  massTo,
  toFahrenheit,
  type VolumeUnit,
  volumeTo,
} from "../domain/units/conversions.ts";
import type {
  Celsius,
  CelsiusDifference,
  Grams,
  Millilitres,
  SquareInches,
} from "../domain/units/quantity.ts";
import { plain, showVolume } from "../domain/units/show.ts";
import { answer, type Reply, refuse } from "../reply/reply.ts";
import { saidIn } from "./amounts.ts";
import { declined } from "./declined.ts";
import { said, worked } from "./figures.ts";

/** A number with four figures that matter, at least: conversions are for reading off, not for pouring. */
export const exactly = (value: number): string =>
  plain(
    value,
    Math.abs(value) >= 1000 ? 1 : Math.abs(value) >= 10 ? 2 : Math.abs(value) >= 1 ? 3 : 4,
  );

const namesOf: Record<VolumeUnit, string> = {
  mL: "mL",
  L: "L",
  "fl oz": "fl oz",
  pint: "pints",
  quart: "quarts",
  gallon: "gallons",
  cup: "cups",
  dram: "fluid drams",
  minim: "minims",
};
const whose: Record<Country, string> = { us: "US", imperial: "Imperial" };
const countries = ["us", "imperial"] as const;

export function convertVolume(
  ml: Millilitres,
  unit: VolumeUnit,
  country: Country | undefined,
): Reply {
  const wrong = checkWanted(volumeAmount(ml));
  if (wrong !== undefined) return declined(wrong, explainWanted(wrong));
  const metric = unit === "mL" || unit === "L";
  const meant = metric ? (["us"] as const) : country === undefined ? countries : [country];
  const shown = meant.map(
    (one) =>
      `${exactly(volumeTo(ml, unit, one))} ${metric ? "" : `${whose[one]} `}${namesOf[unit]}`,
  );
  const [us, imperial] = countries.map((one) => volumeTo(ml, "fl oz", one));
  const mls = `${exactly(ml)} mL`;
  const spoken = saidIn(ml);
  const from =
    spoken === undefined
      ? showVolume(ml)
      : `${exactly(volumeTo(ml, "fl oz", spoken))} ${whose[spoken]} fl oz`;
  return answer({
    title: `${from} is ${shown.join(", or ")}`,
    lines: [`${mls} = ${exactly(us ?? 0)} US fl oz = ${exactly(imperial ?? 0)} Imperial fl oz`],
    say: `${shown.join(", or ")}.`,
    figures: {
      ml: said(ml),
      fl_oz_us: worked(us ?? 0, "mL over 29.5735295625, a US gallon being 3785.411784 mL"),
      fl_oz_imperial: worked(
        imperial ?? 0,
        "mL over 28.4130625, an Imperial gallon being 4546.09 mL",
      ),
    },
    facts: { kind: "volume" },
    working: [
      "A US fl oz is 29.5735295625 mL (NIST weights and measures tables), an Imperial one 28.4130625 mL.",
    ],
  });
}

export function convertMass(g: Grams, unit: MassUnit): Reply {
  const wrong = checkWanted(massAmount(g));
  if (wrong !== undefined) return declined(wrong, explainWanted(wrong));
  const name = unit === "grain" ? "grains" : unit;
  const shown = `${exactly(massTo(g, unit))} ${name}`;
  return answer({
    title: `${exactly(g)} g is ${shown}`,
    lines: [
      `${exactly(g)} g = ${exactly(massTo(g, "oz"))} oz = ${exactly(massTo(g, "grain"))} grains`,
    ],
    say: `${shown}.`,
    figures: {
      g: said(g),
      oz: worked(massTo(g, "oz"), "g over 28.349523125, the avoirdupois ounce"),
      grains: worked(massTo(g, "grain"), "g over 0.06479891"),
    },
    facts: { kind: "mass" },
    working: [
      "An avoirdupois ounce is 28.349523125 g, 437.5 grains (NIST tables).",
      "Old British formulas may mean the apothecaries ounce of 480 grains (The Wellington Photographic Handbook, p. 134).",
    ],
  });
}

/** Water freezes and boils well inside; beyond lies nothing a bench measures (our own bounds, no source). */
const COLDEST = -50;
const HOTTEST = 200;

export function convertHeat(celsius: Celsius, to: Degrees): Reply {
  if (celsius < COLDEST || celsius > HOTTEST) {
    const f = toFahrenheit(celsius);
    return refuse(
      "out-of-range",
      `I read ${plain(celsius, 1)} °C (${plain(f, 1)} °F): give a temperature from ${COLDEST} to ${HOTTEST} °C.`,
      { say: `Give a temperature from ${COLDEST} to ${HOTTEST} °C.` },
    );
  }
  const both = { C: `${plain(celsius, 2)} °C`, F: `${plain(toFahrenheit(celsius), 2)} °F` };
  return answer({
    title: to === "C" ? `${both.F} is ${both.C}` : `${both.C} is ${both.F}`,
    say: `${both[to]}.`,
    figures: {
      c: to === "C" ? worked(celsius, "°F less 32, times 5/9") : said(celsius),
      f:
        to === "F"
          ? worked(toFahrenheit(celsius), "°C times 9/5, and 32")
          : said(toFahrenheit(celsius)),
    },
    facts: { kind: "temperature" },
    working: ["°C = (°F - 32) × 5/9 (SI). A difference leaves out the 32: say difference."],
  });
}

export function convertDifference(celsius: CelsiusDifference, to: Degrees): Reply {
  if (Math.abs(celsius) > HOTTEST) {
    return refuse(
      "out-of-range",
      `I read a difference of ${plain(celsius, 1)} °C: give one up to ${HOTTEST}.`,
      {
        say: `Give a difference up to ${HOTTEST} °C.`,
      },
    );
  }
  const f = differenceToFahrenheit(celsius);
  const both = { C: `${exactly(celsius)} °C`, F: `${exactly(f)} °F` };
  const [from, into] = to === "C" ? [both.F, both.C] : [both.C, both.F];
  return answer({
    title: `A difference of ${from} is ${into}`,
    say: `A difference of ${into}.`,
    figures: {
      c: to === "C" ? worked(celsius, "°F times 5/9, without the 32") : said(celsius),
      f: to === "F" ? worked(f, "°C times 9/5, without the 32") : said(f),
    },
    facts: { kind: "difference" },
    working: ["A difference or tolerance converts by 5/9 alone, without the 32 (SI; NIST SP 811)."],
  });
}

/** More film than any bench has, sq in (a guard against slips, no source). */
const MOST_AREA = 1_000_000;

export function convertArea(in2: SquareInches, to: "in2" | "cm2"): Reply {
  const cm2 = areaToCm2(in2);
  const both = { in2: `${exactly(in2)} sq in`, cm2: `${exactly(cm2)} sq cm` };
  const [from, into] = to === "in2" ? [both.cm2, both.in2] : [both.in2, both.cm2];
  if (in2 <= 0 || in2 > MOST_AREA) {
    return refuse(
      "out-of-range",
      `I read ${from}: give an area above zero, up to ${MOST_AREA} sq in.`,
      {
        say: "Give an area above zero, like 80 square inches.",
      },
    );
  }
  return answer({
    title: `${from} is ${into}`,
    say: `${into}.`,
    figures: {
      in2: to === "in2" ? worked(in2, "sq cm over 6.4516") : said(in2),
      cm2: to === "cm2" ? worked(cm2, "sq in times 6.4516") : said(cm2),
    },
    facts: { kind: "area" },
    working: ["An inch is 2.54 cm exactly, a square inch 6.4516 sq cm."],
  });
}
