import type { BenchRecord } from "../conversation/record.ts";

/**
 * So many of each a bench may hold to be taken. Our own bounds: far beyond what a home or a club
 * gathers in ten years (four runs a day are 15,000), and low enough that whatever is within them is
 * restored in seconds.
 */
const MOST = {
  bottles: 20_000,
  rolls: 20_000,
  sheets: 1_000,
  tanks: 1_000,
  thermometers: 1_000,
  reminders: 10_000,
  runs: 1_000,
  pastRuns: 20_000,
  notes: 20_000,
} as const;
/** People who ever spoke to it. */
const THREADS = 1_000;
/** A bench keeps twenty. */
const STEPS = 50;

/** In words: "41,000 bottles". */
export function tooMuch({ bench, threads, undo }: BenchRecord): string | undefined {
  const counts: readonly (readonly [string, number, number])[] = [
    ...Object.entries(MOST).map(
      ([what, most]) =>
        [
          what === "pastRuns" ? "past runs" : what,
          sizeOf(bench[what as keyof typeof MOST]),
          most,
        ] as const,
    ),
    ["people", sizeOf(threads), THREADS],
    ["undo steps", undo.length, STEPS],
  ];
  const [beyond] = counts.filter(([, count, most]) => count > most);
  return beyond === undefined ? undefined : `${beyond[1].toLocaleString("en")} ${beyond[0]}`;
}

const sizeOf = (many: object): number =>
  Array.isArray(many) ? many.length : Object.keys(many).length;
