import type { Bottle } from "../../src/domain/chemistry/bottle.ts";
import type { Bath, Sheet } from "../../src/domain/process/sheet.ts";
import { millilitres, seconds, units } from "../../src/domain/units/quantity.ts";

/** A litre of developer, mixed on the first of November 2026. Figures invented. */
export const bottleOf = (change: Partial<Bottle> = {}): Bottle => ({
  id: "bottle-1",
  name: "Acorn",
  mark: "square",
  bath: "developer",
  volume: millilitres(1000),
  mixedOn: "2026-11-01",
  by: "Ines",
  used: units(0),
  ...change,
});

const invented = { kind: "invented" as const };

/** A developer of an invented sheet: a litre does 8 units and keeps 40 days. */
export const developerOf = (change: Partial<Bath> = {}): Bath => ({
  name: "developer",
  kind: "developer",
  sense: "exact",
  mix: {
    total: { value: millilitres(1000), origin: invented },
    startWater: { value: millilitres(700), origin: invented },
    parts: [],
  },
  time: { value: seconds(200), origin: invented },
  capacity: { value: units(8), origin: invented },
  keeps: { value: 40, origin: invented },
  ...change,
});

export const sheetOf = (...baths: readonly Bath[]): Sheet => ({
  id: "invented",
  name: "invented",
  called: [],
  process: "C-41",
  invented: true,
  baths: [...baths],
});

/** Forty days full, fewer with air. */
export const keepingDays = { full: 40, "some air": 20, half: 10, less: 5 } as const;

/** A day of November 2026 or later, so many days after its first. */
export const dayAfter = (days: number): string =>
  Temporal.PlainDate.from("2026-11-01").add({ days }).toString();
