import { setTimeout as wait } from "node:timers/promises";
import { isDeepStrictEqual } from "node:util";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { isoInstant } from "../../src/domain/timing/clock-text.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "./child.ts";
import { MemoryDisk } from "./memory-disk.ts";
import { type Line, readLines, startProgram } from "./program.ts";
import { evening } from "./runs.ts";
import { seeded } from "./seeded.ts";
import { type Lived, liveShortSession } from "./short-session.ts";

export type KillFigures = {
  readonly kills: number;
  /** Sessions that came to their end, each held against the one to which nothing happened. */
  readonly sessions: number;
  /** Kills while the program was still starting. */
  readonly early: number;
  /** Cues told once more, since the program was killed between telling and marking. */
  readonly repeated: number;
};

/** What was asked for and did not hold, with the place. */
class Broken extends Error {}

function hold(condition: boolean, what: string): asserts condition {
  if (!condition) throw new Broken(what);
}

const asStored = (value: unknown): unknown => JSON.parse(JSON.stringify(value ?? null));

/** Which of the records that once stood there this is; -1 for none. */
function indexOf(whole: Lived, found: BenchRecord | undefined): number {
  const plain = asStored(found);
  for (let at = whole.records.length - 1; at >= 0; at -= 1) {
    if (isDeepStrictEqual(plain, asStored(whole.records[at]))) return at;
  }
  return -1;
}

/** The lines that take a bench from step `from` to the end of the session. */
function linesFrom(whole: Lived, from: number): readonly string[] {
  return whole.steps.slice(from).flatMap((step) => {
    // The bench's zone is at UTC in winter.
    const move = `@${isoInstant(step.at).slice(0, 19)}`;
    return step.kind === "said" ? [move, step.text] : [move];
  });
}

async function recordIn(directory: string): Promise<BenchRecord | undefined> {
  const store = await openFileStore({ directory, schema: recordSchema });
  try {
    const { value, notices } = await store.load("home");
    const odd = notices.filter((notice) => !notice.includes("cut short"));
    hold(odd.length === 0, `the files are not whole: ${odd.join(" ")}`);
    return value;
  } finally {
    await store.close();
  }
}

/** Whole lines only: the last may have been cut by the kill. */
function printed(lines: readonly string[]): readonly Line[] {
  const whole = lines.filter((line) => line.startsWith("{") && line.endsWith("}"));
  return readLines(whole.join("\n"));
}

const cueOf = ({ values: { tank, bath, cue } }: Line): string | undefined =>
  cue === undefined ? undefined : [tank, bath, cue].join(" ");

/** Nor is it an answer when a new start says that the kill before cut a line of the journal. */
const isAnswer = (line: Line): boolean =>
  line.kind !== "reminder" && cueOf(line) === undefined && line.values.reason !== "data-folder";

const count = (all: readonly string[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const one of all) counts.set(one, (counts.get(one) ?? 0) + 1);
  return counts;
};

/**
 * Lives the short session again and again in a process of its own, which is killed at seeded
 * moments, from its first breath on. After each kill the record on the disk must be one that the
 * undisturbed session passed through, no earlier than the last answer that was printed; at the end
 * it must be the same to the last figure, and every cue must have been told.
 *
 * @throws when a promise does not hold, with the seed and the kill
 */
export async function killSessions(kills: number, seed: number): Promise<KillFigures> {
  const whole = await liveShortSession(new MemoryDisk(), { tells: () => {}, done: () => {} });
  const chance = seeded(seed);
  let done = 0;
  let sessions = 0;
  let early = 0;
  let repeated = 0;
  /** How long the program takes from its start to the end of the session, ms. */
  let takes = 1500;
  const expected = count(
    whole.told.flat().flatMap(({ reply: { facts } }) => {
      const { tank, bath, cue } = facts;
      return cue === undefined ? [] : [[tank, bath, cue].join(" ")];
    }),
  );

  const session = async (directory: string): Promise<void> => {
    const heard: string[] = [];
    let at = 0;
    let killed = 0;
    while (at < whole.steps.length) {
      const where = `seed ${seed}, kill ${done}, step ${at}`;
      const start = isoInstant(whole.steps[Math.max(0, at - 1)]?.at ?? evening);
      const options = ["--data", directory, "--json", "--zone", "Europe/Lisbon"];
      const program = await startProgram([...options, "--simulate", start]);
      const began = performance.now();
      program.say(...linesFrom(whole, at));
      const spared = done >= kills;
      let ended = false;
      const end = program.finish().then(() => {
        ended = true;
      });
      if (spared) await end;
      else {
        // A few at any time from the first breath on, most among the answers.
        const lines = Math.floor(chance() * (whole.steps.length - at));
        const moment =
          chance() < 0.2
            ? wait(chance() * takes * 1.1)
            : program.until((printed) => printed.length > lines).catch(() => undefined);
        await Promise.race([end, moment.then(() => wait(chance() * 4))]);
        if (ended) takes = takes * 0.8 + (performance.now() - began) * 0.2;
        else {
          await program.kill();
          done += 1;
          killed += 1;
          if (program.lines.length === 0) early += 1;
        }
      }
      const lines = printed(program.lines);
      heard.push(...lines.flatMap((line) => cueOf(line) ?? []));
      const answers = lines.filter(isAnswer);
      const answered = answers.length;
      const found = await recordIn(directory);
      const reached = found === undefined ? 0 : indexOf(whole, found);
      hold(reached >= 0, `${where}: a record that never was`);
      hold(reached >= at, `${where}: it went back to ${reached}`);
      const said = whole.steps.slice(at, reached).filter(({ kind }) => kind === "said").length;
      // Talk that changed nothing is written without waiting, and yet before it is answered.
      hold(said >= answered, `${where}: ${said} kept of ${answers.map(({ title }) => title)}`);
      at = reached;
    }
    const told = count(heard);
    for (const [cue, times] of expected) {
      const really = told.get(cue) ?? 0;
      hold(really >= times, `seed ${seed}: ${cue} was lost`);
      hold(really <= times + killed, `seed ${seed}: ${cue} was told ${really} times`);
      repeated += really - times;
    }
    sessions += 1;
  };

  while (done < kills) await withFolder(session);
  return { kills: done, sessions, early, repeated };
}
