declare const unit: unique symbol;
type Quantity<Name extends string> = number & { readonly [unit]: Name };

/** Volume in millilitres. */
export type Millilitres = Quantity<"mL">;
/** Mass in grams. */
export type Grams = Quantity<"g">;
/** A temperature in degrees Celsius. */
export type Celsius = Quantity<"°C">;
/** A difference of two temperatures in Celsius degrees: converting it uses 5/9 alone, without the 32. */
export type CelsiusDifference = Quantity<"Δ°C">;
/** A length of time in seconds. */
export type Seconds = Quantity<"s">;
/** An area in square inches. */
export type SquareInches = Quantity<"in²">;
/** Film processed, in units of 80 square inches. */
export type Units = Quantity<"units">;
/** A moment: milliseconds since 1970-01-01T00:00:00Z. */
export type Instant = Quantity<"instant">;

/** A NaN or an infinity here is our bug, never the user's: readers refuse those before. */
function finite(value: number, name: string): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} is not a finite number: ${value}`);
  return value;
}

export const millilitres = (value: number): Millilitres => finite(value, "mL") as Millilitres;
export const grams = (value: number): Grams => finite(value, "g") as Grams;
export const celsius = (value: number): Celsius => finite(value, "°C") as Celsius;
export const celsiusDifference = (value: number): CelsiusDifference =>
  finite(value, "difference in °C") as CelsiusDifference;
export const seconds = (value: number): Seconds => finite(value, "s") as Seconds;
export const squareInches = (value: number): SquareInches => finite(value, "in²") as SquareInches;
export const units = (value: number): Units => finite(value, "units") as Units;
export const instant = (value: number): Instant => finite(value, "instant") as Instant;

/** A length to the millisecond, so that the instants made of it stay whole. */
export const wholeMilliseconds = (length: Seconds): Seconds =>
  seconds(Math.round(length * 1000) / 1000);

export const later = (at: Instant, by: number): Instant => instant(at + by * 1000);
export const secondsBetween = (from: Instant, to: Instant): Seconds => seconds((to - from) / 1000);
