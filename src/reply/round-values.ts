import type { Json } from "./reply.ts";

/** A thousandth of a degree or of a second is finer than any thermometer or clock here. */
const DECIMALS = 3;
const thousandths = /_[cs]$/;
/** Of everything else so many digits: coarser than binary noise, finer than any printed figure. */
const DIGITS = 12;
/** Smaller than this is nothing but noise. */
const NOISE = 1e-9;

/** Values as they leave: 0.30000000000000426 is 0.3. Whole numbers stay whole. */
export function rounded(value: Json, key: string): Json {
  if (typeof value === "number") return roundedNumber(value, key);
  if (isList(value)) return value.map((one) => rounded(one, key));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, rounded(one, name)]));
}

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);

function roundedNumber(value: number, key: string): number {
  if (!Number.isFinite(value) || Number.isInteger(value)) return value;
  if (Math.abs(value) < NOISE) return 0;
  const text = thousandths.test(key) ? value.toFixed(DECIMALS) : value.toPrecision(DIGITS);
  return Number(text) + 0;
}
