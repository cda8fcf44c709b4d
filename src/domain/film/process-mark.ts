/** What stands on a cassette or a backing paper, as it was told. */
export const processMarks = ["C-41", "E-6", "ECN-2", "black-and-white"] as const;
export type ProcessMark = (typeof processMarks)[number];

const spelt: ReadonlyMap<string, ProcessMark> = new Map([
  ["c41", "C-41"],
  ["e6", "E-6"],
  ["ecn2", "ECN-2"],
  ["blackandwhite", "black-and-white"],
  ["bw", "black-and-white"],
  ["bandw", "black-and-white"],
]);

/** The mark a sheet's process stands for, or undefined where its words say none of them. */
export const markOf = (process: string): ProcessMark | undefined =>
  spelt.get(process.toLowerCase().replace(/[^a-z0-9]/g, ""));
