import {
  type Celsius,
  type CelsiusDifference,
  celsius,
  celsiusDifference,
  type Grams,
  grams,
  type Millilitres,
  millilitres,
  type Seconds,
  type SquareInches,
  seconds,
  squareInches,
} from "./quantity.ts";

/** Whose ounce, pint, quart or gallon is meant. A litre has no country. */
export type Country = "us" | "imperial";

/**
 * Millilitres to one of each unit. US: a gallon is 231 in³ exactly, 128 fl oz; Imperial: a gallon
 * is 4546.09 mL exactly, 160 fl oz (NIST weights and measures tables; SI definitions). A cup is
 * half a US pint; the Imperial cup is ten fl oz (common practice, no source). A dram is an eighth
 * of a fl oz, a minim a sixtieth of a dram.
 */
const US_GALLON = 3785.411784;
const IMPERIAL_GALLON = 4546.09;

export type VolumeUnit =
  | "mL"
  | "L"
  | "fl oz"
  | "pint"
  | "quart"
  | "gallon"
  | "cup"
  | "dram"
  | "minim";

const volumeUnits: Record<Country, Record<VolumeUnit, number>> = {
  us: {
    mL: 1,
    L: 1000,
    "fl oz": US_GALLON / 128,
    pint: US_GALLON / 8,
    quart: US_GALLON / 4,
    gallon: US_GALLON,
    cup: US_GALLON / 16,
    dram: US_GALLON / 1024,
    minim: US_GALLON / 61440,
  },
  imperial: {
    mL: 1,
    L: 1000,
    "fl oz": IMPERIAL_GALLON / 160,
    pint: IMPERIAL_GALLON / 8,
    quart: IMPERIAL_GALLON / 4,
    gallon: IMPERIAL_GALLON,
    cup: IMPERIAL_GALLON / 16,
    dram: IMPERIAL_GALLON / 1280,
    minim: IMPERIAL_GALLON / 76800,
  },
};

export const needsCountry = (unit: VolumeUnit): boolean => unit !== "mL" && unit !== "L";

export const volumeIn = (amount: number, unit: VolumeUnit, country: Country): Millilitres =>
  millilitres(amount * volumeUnits[country][unit]);
export const volumeTo = (volume: Millilitres, unit: VolumeUnit, country: Country): number =>
  volume / volumeUnits[country][unit];

/** Grams to one of each unit: a pound is 453.59237 g exactly, 16 oz, 7000 grains (NIST tables). */
const POUND = 453.59237;
export type MassUnit = "g" | "kg" | "oz" | "lb" | "grain" | "mg";
const massUnits: Record<MassUnit, number> = {
  mg: 0.001,
  g: 1,
  kg: 1000,
  oz: POUND / 16,
  lb: POUND,
  grain: POUND / 7000,
};
export const massIn = (amount: number, unit: MassUnit): Grams => grams(amount * massUnits[unit]);
export const massTo = (mass: Grams, unit: MassUnit): number => mass / massUnits[unit];

export type Degrees = "C" | "F";
export const fromFahrenheit = (degrees: number): Celsius => celsius(((degrees - 32) * 5) / 9);
export const toFahrenheit = (temperature: Celsius): number => (temperature * 9) / 5 + 32;
/** A tolerance or a drop: 5/9 only (SI; NIST SP 811). */
export const differenceFromFahrenheit = (degrees: number): CelsiusDifference =>
  celsiusDifference((degrees * 5) / 9);
export const differenceToFahrenheit = (difference: CelsiusDifference): number =>
  (difference * 9) / 5;

/** An inch is 2.54 cm exactly. */
const CM2_PER_IN2 = 2.54 * 2.54;
export const areaFromCm2 = (cm2: number): SquareInches => squareInches(cm2 / CM2_PER_IN2);
export const areaToCm2 = (area: SquareInches): number => area * CM2_PER_IN2;

export const minutes = (amount: number): Seconds => seconds(amount * 60);
