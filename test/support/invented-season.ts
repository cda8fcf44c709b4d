import type { Season } from "../../src/domain/record/season.ts";

const runs = [2, 3, 0, 1, 4, 6, 2, 0, 3, 5, 7, 4];
const known = [0, 3, 0, 1, 4, 6, 2, 0, 3, 5, 7, 4];
const deviations = [0, 5, 0, 2, 6, 4, 1, 0, 2, 3, 11, 1];
const names = "Acorn Banjo Cactus Domino Ember Falcon Garnet Hazel Indigo Juniper Kettle".split(
  " ",
);

/** INVENTED: a busy year, with a month without a run and one whose deviations were not kept. */
export const inventedSeason = (): Season => ({
  from: "2025-12-01",
  to: "2026-11-29",
  runs: 37,
  rolls: 92,
  units: 84.5,
  processes: [
    { process: "C-41", runs: 22, rolls: 60, units: 58 },
    { process: "black-and-white", runs: 11, rolls: 24, units: 20.5 },
    { process: "E-6", runs: 4, rolls: 8, units: 6 },
  ],
  bottles: names.map((bottle, index) => ({
    bottle,
    mark: "square",
    bath: ["developer", "blix", "stabilizer"][index % 3] ?? "",
    units: 20 - index * 1.5,
    perRoll: index % 4 === 3 ? undefined : { amount: 14 / (20 - index), currency: "euros" },
    retired: index % 5 === 4,
  })),
  months: runs.map((count, index) => ({
    month: Temporal.PlainYearMonth.from("2025-12").add({ months: index }).toString(),
    runs: count,
    known: known[index] ?? 0,
    deviations: deviations[index] ?? 0,
  })),
});
