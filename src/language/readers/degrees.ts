import type { Degrees } from "../../domain/units/conversions.ts";
import type { Reading } from "../reader.ts";
import { phrases } from "./phrases.ts";

/** The slot `{degrees}`: a scale by itself. Common usage, no source. */
export const readDegrees = phrases<Degrees>([
  ["C", "c, °c, celsius, centigrade, degrees c, degrees celsius, degrees centigrade"],
  ["F", "f, °f, fahrenheit, farenheit, degrees f, degrees fahrenheit"],
]);

const readSign = phrases<undefined>([[undefined, "°, degree, degrees, deg, degs"]]);
const readScale = phrases<Degrees>([
  ["C", "c, °c, celsius, centigrade"],
  ["F", "f, °f, fahrenheit, farenheit"],
]);

/**
 * What stands behind a number: "°f", "degrees fahrenheit", "f degree", "degrees", or nothing. A
 * scale that was said is never left out.
 */
export function readScaleBehind(
  words: readonly string[],
  from: number,
): readonly Reading<Degrees | undefined>[] {
  const sign = readSign(words, from)[0];
  const scale = readScale(words, sign?.next ?? from)[0];
  const nothing: Reading<Degrees | undefined> = { value: undefined, next: from };
  if (scale === undefined) return sign === undefined ? [nothing] : [sign, nothing];
  const sayings = sign === undefined ? readSign(words, scale.next)[0] : undefined;
  return [{ value: scale.value, next: sayings?.next ?? scale.next }];
}
