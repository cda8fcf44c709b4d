import fc from "fast-check";
import { expect, test } from "vitest";
import { celsius } from "../units/quantity.ts";
import { isLiquid, waterDensity } from "./water-density.ts";

const TABLE = "What Is the Density of Water, standard table (read)";
const EQUATION =
  "IP Standard Methods, Appendix G, density of water, equation evaluated for the handbook (read)";

test.each([
  { t: 4, rho: 999.972, within: 0.01, source: TABLE },
  { t: 10, rho: 999.7026, within: 0.01, source: TABLE },
  { t: 20, rho: 998.2071, within: 0.01, source: TABLE },
  { t: 25, rho: 997.0479, within: 0.01, source: TABLE },
  { t: 60, rho: 983.2, within: 0.05, source: TABLE },
  { t: 4, rho: 999.972, within: 0.01, source: EQUATION },
  { t: 60, rho: 983.19, within: 0.02, source: EQUATION },
  { t: 100, rho: 958.4, within: 0.1, source: "from memory" },
])("water at $t °C weighs $rho kg/m³: $source", ({ t, rho, within }) => {
  expect(Math.abs(waterDensity(celsius(t)) * 1000 - rho)).toBeLessThanOrEqual(within);
});

test("above 4 °C warmer water is lighter", () => {
  const lighter = fc.property(
    fc.double({ min: 4, max: 98, noNaN: true }),
    fc.double({ min: 0.1, max: 2, noNaN: true }),
    (t, more) => {
      expect(waterDensity(celsius(t + more))).toBeLessThan(waterDensity(celsius(t)));
    },
  );
  fc.assert(lighter);
});

test("ice and steam are no water", () => {
  expect(isLiquid(celsius(0)) && isLiquid(celsius(100))).toBe(true);
  expect(isLiquid(celsius(-0.1)) || isLiquid(celsius(100.1))).toBe(false);
  expect(() => waterDensity(celsius(101))).toThrow(RangeError);
});
