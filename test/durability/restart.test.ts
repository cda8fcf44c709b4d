import { join } from "node:path";
import { expect, test } from "vitest";
import { recordSchema } from "../../src/conversation/record.ts";
import { isoInstant } from "../../src/domain/timing/clock-text.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "../support/child.ts";
import { type Line, type Program, readLines, startProgram } from "../support/program.ts";
import { seeded } from "../support/seeded.ts";
import { simulate } from "../support/simulate.ts";

/** A bath with two cues only: vent 10 s after "in", pour-out two hours later. */
const LONG_BLIX = ["start blix for 2 hours tank north", "ready", "in"];

const ago = (seconds: number): string =>
  isoInstant(instant(Math.round(Date.now() - seconds * 1000)));

async function withProgram(data: string, use: (program: Program) => Promise<void>): Promise<void> {
  const program = await startProgram(["--data", data, "--json"]);
  try {
    await use(program);
  } finally {
    await program.kill();
  }
}

const heard = (program: Program): readonly Line[] => readLines(program.lines.join("\n"));
const cues = (program: Program): readonly unknown[] =>
  heard(program)
    .filter(({ kind }) => kind === "cue")
    .map(({ values }) => values.cue);
/** Everything that was due before has been told and kept once the answer to a message is there. */
async function ask(program: Program, message: string): Promise<Line | undefined> {
  const answers = (): readonly Line[] => heard(program).filter(({ kind }) => kind !== "cue");
  const before = answers().length;
  program.say(message);
  await program.until(() => answers().length > before);
  return answers()[before];
}

test("a run goes on after a kill; what was missed is told once, with its lateness", async () => {
  await withFolder(async (folder) => {
    await simulate(folder, ago(300), LONG_BLIX);
    await withProgram(folder, async (program) => {
      const left = await ask(program, "left");
      expect(left?.title).toContain("blix");
      expect(cues(program)).toEqual(["missed"]);
      const [missed] = heard(program);
      expect(missed?.values).toMatchObject({ missed: 1 });
      expect(Number(missed?.values.late_s)).toBeGreaterThanOrEqual(290);
      expect(missed?.lines[0]).toContain("vent");
    });
    for (let restart = 0; restart < 2; restart += 1) {
      await withProgram(folder, async (program) => {
        const left = await ask(program, "left");
        expect(left?.title).toContain("blix");
        expect(cues(program)).toEqual([]);
      });
    }
  });
});

test("a cue due around a kill is never lost, and not told again once something was said after it", async () => {
  await withFolder(async (folder) => {
    // The vent is due about when the first process is up: before, then or after.
    await simulate(folder, ago(9), LONG_BLIX);
    let told = 0;
    await withProgram(folder, async (program) => {
      await ask(program, "left");
      await program.kill();
      told += cues(program).length;
    });
    await withProgram(folder, async (program) => {
      await program.until(() => told + cues(program).length > 0);
      await ask(program, "left");
    });
    await withProgram(folder, async (program) => {
      await ask(program, "left");
      expect(cues(program)).toEqual([]);
    });
  });
});

test("killed at any moment, all that was acknowledged is there, in order", async () => {
  const chance = seeded(7);
  await withFolder(async (folder) => {
    await simulate(folder, ago(60), LONG_BLIX);
    let acknowledged = 0;
    for (let round = 0; round < 6; round += 1) {
      await withProgram(folder, async (program) => {
        const before = acknowledged;
        const noted = (): number =>
          heard(program).filter(({ title }) => title.startsWith("Noted")).length;
        program.say(...Array.from({ length: 60 }, (_, at) => `note number ${round} ${at}`));
        const enough = 1 + Math.floor(chance() * 40);
        await program.until(() => noted() >= enough);
        await program.kill();
        acknowledged = before + noted();
      });
      const texts = await notesIn(folder);
      expect(texts.length).toBeGreaterThanOrEqual(acknowledged);
      const mine = texts.filter((text) => text.startsWith(`number ${round} `));
      expect(mine).toEqual(mine.map((_, at) => `number ${round} ${at}`));
      acknowledged = texts.length;
    }
    await withProgram(folder, async (program) => {
      expect((await ask(program, "left"))?.title).toContain("blix");
      expect(cues(program)).toEqual([]);
    });
  });
});

/** Every note on the bench and its runs, read from the files themselves. */
async function notesIn(directory: string): Promise<readonly string[]> {
  const store = await openFileStore({ directory, schema: recordSchema });
  try {
    const { value, notices } = await store.load("home");
    expect(notices.filter((notice) => !notice.includes("cut short"))).toEqual([]);
    const { notes, runs } = value?.bench ?? { notes: [], runs: {} };
    return [...notes, ...Object.values(runs).flatMap((run) => run.notes)].map(({ text }) => text);
  } finally {
    await store.close();
  }
}

test("the data folder may lie in a folder that is not there yet", async () => {
  await withFolder(async (folder) => {
    await withProgram(join(folder, "one", "two"), async (program) => {
      expect((await ask(program, "left"))?.kind).toBe("reply");
    });
  });
});
