import { expect, test } from "vitest";
import { readable } from "./readable.ts";

test.each([
  [
    "Blix, C-41: 650 mL at 37.8 °C ±0.15",
    "blicks, C forty one: 650 millilitres at 37.8 degrees plus or minus 0.15",
  ],
  ["1+9, 5 %", "1 plus 9, 5 percent"],
  ["pour out 16:05", "pour out 16 05"],
])("%s is read out as %s", (written, spoken) => {
  expect(readable(written)).toBe(spoken);
});
