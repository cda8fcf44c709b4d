import { type CelsiusDifference, celsiusDifference } from "../units/quantity.ts";

/** How loudly a departure from the aim is spoken of. */
export type Band = "note" | "ask" | "hold";

export type Bands = {
  /** Up to here it is noted, °C. */
  readonly note: CelsiusDifference;
  /** Up to here it is asked about, beyond it held up, °C. */
  readonly ask: CelsiusDifference;
};

/** Our own bounds, no source. */
export const BANDS: Bands = { note: celsiusDifference(0.3), ask: celsiusDifference(1) };

/** @param off  °C, warmer or colder */
export function bandOf(off: CelsiusDifference, { note, ask }: Bands = BANDS): Band {
  const size = Math.abs(off) - 1e-9;
  if (size <= note) return "note";
  return size <= ask ? "ask" : "hold";
}
