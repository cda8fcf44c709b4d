import type { Bench } from "./bench.ts";

type Thermometer = Bench["thermometers"][string];

export const thermometerOf = (bench: Bench, name: string): Thermometer | undefined =>
  Object.hasOwn(bench.thermometers, name.toLowerCase())
    ? bench.thermometers[name.toLowerCase()]
    : undefined;

/** The bench with a thermometer as it is now; a known offset takes the suspicion off it. */
export function withThermometer(bench: Bench, name: string, thermometer: Thermometer): Bench {
  const next = { ...bench, thermometers: { ...bench.thermometers, [name]: thermometer } };
  if (bench.suspects === undefined) return next;
  const suspects = bench.suspects.filter((one) => one.kind !== "thermometer" || one.name !== name);
  return { ...next, suspects };
}

export function withoutThermometer(bench: Bench, name: string): Bench {
  const { [name.toLowerCase()]: _, ...thermometers } = bench.thermometers;
  return { ...bench, thermometers };
}

/** One reference at a time: the one before it keeps its checks. */
export function makeReference(bench: Bench, name: string): Bench {
  const others = Object.entries(bench.thermometers).map(([key, one]) => {
    const { isReference: _, ...rest } = one;
    return [key, rest] as const;
  });
  const own = thermometerOf(bench, name);
  return {
    ...bench,
    thermometers: {
      ...Object.fromEntries(others),
      [name]: { name, checks: own?.checks ?? [], isReference: true },
    },
  };
}
