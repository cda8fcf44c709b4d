import { type Country, massTo, toFahrenheit, volumeTo } from "./conversions.ts";
import type {
  Celsius,
  CelsiusDifference,
  Grams,
  Millilitres,
  Seconds,
  SquareInches,
  Units,
} from "./quantity.ts";

/** A number to at most `places` decimals, without trailing zeros. */
export function plain(value: number, places: number): string {
  const text = value.toFixed(places);
  const trimmed = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return trimmed === "-0" ? "0" : trimmed;
}

/**
 * A volume as a graduate can measure it: 0.1 mL below 10 mL, 1 mL below a litre, 10 mL above
 * (common practice, no source). The value itself stays unrounded.
 */
export function showVolume(volume: Millilitres): string {
  if (Math.abs(volume) < 9.95) return `${plain(volume, 1)} mL`;
  if (Math.abs(volume) < 999.5) return `${plain(volume, 0)} mL`;
  return `${plain(volume / 1000, 2)} L`;
}

const flOzName: Record<Country, string> = { us: "US fl oz", imperial: "Imp fl oz" };

/** The same volume in fluid ounces of a named country, to a tenth. */
export const showFluidOunces = (volume: Millilitres, country: Country): string =>
  `${plain(volumeTo(volume, "fl oz", country), 1)} ${flOzName[country]}`;

/** Millilitres first; the bench's own ounces behind where it uses them. */
export const showVolumeFor = (volume: Millilitres, country: Country | undefined): string =>
  country === undefined
    ? showVolume(volume)
    : `${showVolume(volume)} (${showFluidOunces(volume, country)})`;

/** A mass as a scale shows it: 0.01 g below 10 g, 0.1 g above (The Darkroom Cookbook, 3rd ed., p. 17). */
export const showMass = (mass: Grams): string => `${plain(mass, Math.abs(mass) < 9.995 ? 2 : 1)} g`;

/** The same mass in grains below half an ounce, in ounces and grains above. */
export function showOunces(mass: Grams): string {
  const grains = massTo(mass, "grain");
  if (grains < 218.75) return `${plain(grains, grains < 10 ? 1 : 0)} grains`;
  const whole = Math.floor(grains / 437.5);
  const rest = Math.round(grains - whole * 437.5);
  return rest === 0 ? `${whole} oz` : `${whole} oz ${rest} grain${rest === 1 ? "" : "s"}`;
}

export const showCelsius = (temperature: Celsius): string => `${plain(temperature, 1)} °C`;
export const showTemperature = (temperature: Celsius): string =>
  `${plain(temperature, 1)} °C (${plain(toFahrenheit(temperature), 1)} °F)`;
export const showDifference = (difference: CelsiusDifference): string =>
  `${plain(difference, 2)} °C`;

/** Clock style: "45 s", "3:15", "1 h 05 min". */
export function showDuration(duration: Seconds): string {
  const total = Math.round(duration);
  const sign = total < 0 ? "-" : "";
  const all = Math.abs(total);
  if (all < 60) return `${sign}${all} s`;
  if (all < 3600) return `${sign}${Math.floor(all / 60)}:${String(all % 60).padStart(2, "0")}`;
  const minutes = Math.round(all / 60);
  return `${sign}${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")} min`;
}

/** For the ear: "3 minutes 15", "45 seconds". */
export function sayDuration(duration: Seconds): string {
  const all = Math.max(0, Math.round(duration));
  const whole = Math.floor(all / 60);
  const rest = all % 60;
  if (whole === 0) return `${rest} second${rest === 1 ? "" : "s"}`;
  const head = `${whole} minute${whole === 1 ? "" : "s"}`;
  return rest === 0 ? head : `${head} ${rest}`;
}

export const showUnits = (count: Units): string =>
  `${plain(count, 2)} unit${count === 1 ? "" : "s"}`;
export const showArea = (area: SquareInches): string => `${plain(area, 1)} sq in`;

/** Money as it was told: an amount and the word behind it. No rates, no conversion. */
export const showMoney = (amount: number, currency: string): string =>
  `${amount.toFixed(2)} ${currency}`;
