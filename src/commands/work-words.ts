import { type Bench, liveBottles } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { plain } from "../domain/units/show.ts";
import { answer, type Json, type Reply, refuse } from "../reply/reply.ts";
import type { ExportHolds } from "./work.ts";

const many = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? "" : "s"}`;

/** "12 runs, 3 bottles, 1 sheet"; what there is none of is not named. */
export function holdsWords(counts: ExportHolds["counts"]): string {
  const parts = Object.entries(counts).flatMap(([noun, count]) =>
    count === 0 ? [] : [many(count, noun.replace(/s$/, ""))],
  );
  return parts.length === 0 ? "nothing yet" : parts.join(", ");
}

/** The same of a bench as it stands; pictures are not counted. */
export const benchHolds = (bench: Bench): ExportHolds["counts"] => ({
  runs: Object.keys(bench.runs).length + bench.pastRuns.length,
  bottles: Object.keys(bench.bottles).length,
  sheets: Object.keys(bench.sheets).length,
  rolls: Object.keys(bench.rolls).length,
  reminders: Object.keys(bench.reminders).length,
  pictures: 0,
});

export const isEmpty = (bench: Bench): boolean =>
  Object.values(benchHolds(bench)).every((count) => count === 0) && bench.notes.length === 0;

/** While film is in a bath nobody rewrites the bench under it. */
export function runsGoOn(bench: Bench): Reply | undefined {
  const [run] = liveRuns(bench);
  return run === undefined
    ? undefined
    : refuse("run-open", `${run.tank} is under way. Finish or stop it first.`, {
        say: "A run is open. Finish it first.",
      });
}

export const progressWords = (done: number, of: number): Reply =>
  answer({
    title: `Export: ${done} of ${of} runs.`,
    say: `${done} of ${of} runs.`,
    facts: { done, of },
  });

const size = (bytes: number): string =>
  bytes < 1_000_000 ? `${plain(bytes / 1000, 0)} kB` : `${plain(bytes / 1e6, 1)} MB`;

/** What is told where not all is well with an archive. */
type Lacks = {
  /** Files in pictures that a restore would not take. */
  readonly leftOut: number;
  /** What there is more of than a restore takes. */
  readonly beyond: string | undefined;
};

export function exportedWords(
  name: string,
  bytes: number,
  holds: ExportHolds,
  lacks: Lacks,
): Reply {
  const { missing, counts } = holds;
  return answer({
    title: `Everything of this bench is in exports/${name}, ${size(bytes)}.`,
    lines: [
      `It holds ${holdsWords(counts)}, with notes, settings and names. It is private: share forms are what others get.`,
      `On another machine: put it into the folder exports of the data folder, and say restore from ${name}.`,
    ],
    say: "Everything is in one file, in the folder exports.",
    facts: { file: `exports/${name}`, bytes, ...countFacts(counts), missing: [...missing] },
    cautions: [...exportCautions(missing, lacks)],
  });
}

function* exportCautions(missing: readonly string[], { leftOut, beyond }: Lacks) {
  if (missing.length > 0) {
    yield `${many(missing.length, "run")} could not be read and ${missing.length === 1 ? "is" : "are"} not in it: ${missing.slice(0, 5).join(", ")}.`;
  }
  if (leftOut > 0) {
    yield `${many(leftOut, "file")} in pictures ${leftOut === 1 ? "is" : "are"} not in it: too many, too large, or not drawn by me.`;
  }
  if (beyond !== undefined) {
    yield `It holds ${beyond}, more than a restore takes: keep a copy of the whole data folder as well.`;
  }
}

const countFacts = (counts: ExportHolds["counts"]): Record<string, Json> => ({ ...counts });

/** @param left  the disk would not yet put the pictures into the place of the old ones */
export function restoredWords(name: string, bench: Bench, pictures: number, left: boolean): Reply {
  const counts = { ...benchHolds(bench), pictures };
  const live = liveBottles(bench);
  return answer({
    title: `Restored from ${name}: ${holdsWords(counts)}.`,
    lines: [
      ...(live.length === 0
        ? []
        : [`Bottles in use: ${live.map(({ name: bottle }) => bottle).join(", ")}.`]),
      "Look at the bottles themselves: what happened to them since the export is not in it.",
    ],
    cautions: left
      ? [
          "The disk would not put its pictures into the place of the old ones. I try again at my next start.",
        ]
      : [],
    say: "Restored. Look at the bottles themselves.",
    facts: { file: `exports/${name}`, ...countFacts(counts) },
  });
}

/** What went, without a name: this reply is kept. */
export function forgottenWords(
  whole: boolean,
  gone: {
    readonly exports: number;
    readonly pictures: number;
    readonly lost: number;
    /** Archives, pictures or summaries could not all be removed. */
    readonly left: boolean;
  },
): Reply {
  return answer({
    title: whole
      ? "This bench is forgotten: everything on it is gone. It begins afresh."
      : "Forgotten: their words, their name and what they did are gone from this bench.",
    lines: [
      gone.left
        ? "Gone with it: older copies and what undo kept."
        : `Gone with it: ${many(gone.exports, "archive")} in exports, ${many(gone.pictures, "file")} of pictures and summaries, older copies and what undo kept.`,
      ...(gone.lost === 0
        ? []
        : [`${many(gone.lost, "damaged record")} could not be looked through and went as well.`]),
      "Copies made elsewhere I cannot reach: archives on other machines, backups, what was posted.",
    ],
    cautions: gone.left
      ? [
          "Files are left: the disk would not let go of exports, pictures or summaries. Remove the folders exports, pictures and records of this bench by hand.",
        ]
      : [],
    say: gone.left
      ? "Forgotten, but files are left. Read the screen."
      : whole
        ? "Everything is gone. We begin afresh."
        : "Forgotten, for good.",
    facts: { exports: gone.exports, pictures: gone.pictures, lost: gone.lost, left: gone.left },
  });
}

export const workFailed = (why: string): Reply =>
  refuse("not-done", why, { say: "That did not work. Nothing was changed." });
