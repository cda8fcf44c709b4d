import { expect, test } from "vitest";
import { type FileSystem, nodeFileSystem, type OpenFile } from "../../src/platform/file-system.ts";
import { withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt } from "./support/club.ts";

/** The machine's disk, which takes nothing while it is full. */
function fillableDisk(): { readonly disk: FileSystem; fill(isFull: boolean): void } {
  let isFull = false;
  const refuse = (): void => {
    if (isFull) throw Object.assign(new Error("no space left on device"), { code: "ENOSPC" });
  };
  const filling = (file: OpenFile): OpenFile => ({
    ...file,
    async write(bytes) {
      refuse();
      return file.write(bytes);
    },
  });
  return {
    disk: {
      ...nodeFileSystem,
      async create(path) {
        refuse();
        return filling(await nodeFileSystem.create(path));
      },
      append: async (path) => filling(await nodeFileSystem.append(path)),
    },
    fill(is) {
      isFull = is;
    },
  };
}

const contents = (posts: readonly { readonly content: string }[]): string =>
  posts.map(({ content }) => content).join("\n");

test("the disk is full in the middle of a run: every cue comes once and in time, words are told why not", () =>
  withScene(async (scene) => {
    const { standIn, pass, start, clock } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    const { disk, fill } = fillableDisk();
    await club.bot.stop();
    const bot = await start({ disk });
    await ask(scene, ines, "start developer for 4 minutes tank north");
    const startedAt = clock.wall();
    await pass(31);
    fill(true);
    const before = club.posts.length;
    const refused = await ask(scene, ines, "bottle fixer 1 litre mixed today");
    expect(refused.content).toContain("The disk is full, so I could not");
    expect(refused.content).not.toContain("Acorn");
    await pass(300);
    // A first pour 30 s after the plan, its window 20 s (the bench's own), the end by the clock.
    const rung = club.posts.slice(before).filter(({ pinged }) => pinged.length > 0);
    const keys = rung.map(({ content, at }) => `${at} ${content}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(contents(rung)).not.toMatch(/late|not told in time/i);
    const asked = rung.find(({ content }) => content.includes("is the developer in?"));
    expect(asked?.at).toBe(startedAt + 50_000);
    expect(contents(rung)).toContain("North: pour out now.");
    expect(contents(rung)).toContain("No clock is running");
    const aid = ines.slash("emergency", { channel: BENCH, options: { kind: "eyes" } });
    await standIn.settled();
    expect(aid.content).toMatch(/rinse|water/i);
    expect((await ask(scene, ines, "left")).content).toContain("I answer, and keep nothing");
    for (const words of ["i am hurt", "hot and scalded"]) {
      const from = club.posts.length;
      ines.says(BENCH, `${club.app.mention} ${words}`);
      await pass(1);
      expect(contents(club.posts.slice(from)), words).toMatch(/Emergency number|Cool running/);
    }
    expect(bot.notes.join()).toContain("The disk is full");

    // With room again everything is kept: a restart tells nothing twice.
    fill(false);
    expect((await ask(scene, ines, "note the tank was full")).content).toContain("Noted");
    const posts = club.posts.length;
    await bot.stop();
    await start();
    await pass(60);
    expect(contents(club.posts.slice(posts))).toBe("");
    expect((await ask(scene, ines, "summary")).content).toContain("ended by the clock");
    expect(standIn.violations).toEqual([]);
  }));

test("stopped while the disk is full, what it could not keep is told once more after the start, as late", () =>
  withScene(async (scene) => {
    const { standIn, pass, start } = scene;
    const club = await openBenchAt(scene);
    const { disk, fill } = fillableDisk();
    await club.bot.stop();
    const bot = await start({ disk });
    await ask(scene, club.ines, "start developer for 4 minutes tank north");
    await pass(31);
    fill(true);
    await pass(40);
    const before = club.posts.length;
    await bot.stop();
    fill(false);
    await start();
    await pass(5);
    const again = contents(club.posts.slice(before));
    expect(again).toMatch(/not told in time|Late/);
    await pass(300);
    expect(contents(club.posts.slice(before))).toContain("No clock is running");
    const live = club.posts.filter(({ silent }) => silent);
    expect(live).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));
