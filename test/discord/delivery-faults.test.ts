import { expect, test } from "vitest";
import { type Scene, withScene } from "./support/bot.ts";
import { ask, type Club, openBenchAt } from "./support/club.ts";

const POST = "POST /channels/:channel/messages";

/** A run at the bench; its next cue is the vent or a beat, well ahead. */
async function running(scene: Scene): Promise<Club> {
  const club = await openBenchAt(scene);
  await ask(scene, club.ines, "start blix for 6 minutes tank north");
  await scene.pass(31);
  return club;
}

const first = (content: string): string => content.split(/ <@|\n/)[0] ?? "";
const rung = (club: Club) => club.posts.filter(({ pinged }) => pinged.length > 0);

/** Real time in which what waits for another try gets it. */
async function recovers(scene: Scene, done: () => boolean): Promise<void> {
  for (let turn = 0; turn < 200 && !done(); turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  await scene.standIn.settled();
}

test.each([
  { what: "503, not done", fault: { status: 503 } },
  { what: "502, done all the same", fault: { status: 502, performed: true } },
  { what: "the line cut before", fault: { drop: true } },
  { what: "the line cut after it was done", fault: { drop: true, performed: true } },
  { what: "429 with a time", fault: { status: 429, retryAfter: 0.05, scope: "shared" as const } },
  { what: "429 without a word", fault: { status: 429, retryAfter: 0, scope: "shared" as const } },
])("$what: the cue comes once, on its bench's time", ({ fault }) =>
  withScene(async (scene) => {
    const { standIn, clock, pass } = scene;
    const club = await running(scene);
    const before = rung(club).length;
    standIn.faults.next({ route: POST, ...fault });
    // "Is the blix in?" comes 20 s, the bench's window, after the pour.
    clock.advance(19_500);
    await recovers(scene, () => rung(club).length > before);
    const cues = rung(club)
      .slice(before)
      .map(({ content }) => first(content));
    expect(cues.length).toBeGreaterThan(0);
    expect(new Set(cues).size).toBe(cues.length);
    await pass(30);
    const keys = rung(club).map(({ content, at }) => `${first(content)} ${at}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(standIn.violations).toEqual([]);
  }),
);

test("while Discord is down the clock goes on; what was missed comes once, late, and says so", () =>
  withScene(async (scene) => {
    const { standIn, clock } = scene;
    const club = await running(scene);
    const before = rung(club).length;
    await standIn.socket.down();
    for (let turn = 0; turn < 120; turn += 1) {
      await clock.pass(1000);
    }
    expect(rung(club)).toHaveLength(before);
    await standIn.socket.up();
    await recovers(scene, () => rung(club).length > before);
    await scene.pass(2);
    const late = rung(club).slice(before);
    const text = late.map(({ content }) => content).join("\n");
    expect(text).toContain("Late");
    expect(text.match(/is the blix in\?/g)).toHaveLength(1);
    // Each with the time it was due, in order.
    const due = [...text.matchAll(/<t:(\d+):T>/g)].map((match) => Number(match[1]));
    expect(due).toEqual(due.toSorted((one, other) => one - other));
    await scene.pass(300);
    expect(rung(club).at(-1)?.content).not.toContain("Late");
    expect(standIn.violations).toEqual([]);
  }));

test("stopped while Discord is down, what waited is sent after the next start", () =>
  withScene(async (scene) => {
    const { standIn, clock, start } = scene;
    const club = await openBenchAt(scene);
    await ask(scene, club.ines, "start blix for 6 minutes tank north");
    await scene.pass(31);
    const before = rung(club).length;
    await standIn.socket.down();
    for (let turn = 0; turn < 25; turn += 1) await clock.pass(1000);
    await club.bot.stop();
    await standIn.socket.up();
    await start();
    await recovers(scene, () => rung(club).length > before);
    const text = rung(club)
      .slice(before)
      .map(({ content }) => content)
      .join("\n");
    expect(text.match(/is the blix in\?/g)).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));

test("a cue outranks chatter and edits when the bucket is short, and cues keep their order", () =>
  withScene(async (scene) => {
    const { standIn, clock } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, rui } = club;
    await ask(scene, ines, "set one person per tank");
    await ask(scene, ines, "start blix for 6 minutes tank north");
    await scene.pass(29);
    for (let turn = 0; turn < 8; turn += 1) {
      ines.says("wet-bench", "time");
      rui.says("wet-bench", "time");
    }
    await new Promise((resolve) => setTimeout(resolve, 15));
    await clock.pass(1500);
    await recovers(
      scene,
      () => club.posts.filter(({ replyTo }) => replyTo !== undefined).length >= 16,
    );
    const order = club.posts.filter(({ author }) => author === "Bench bot");
    const cue = order.findIndex(({ content }) => content.startsWith("North: pour blix"));
    const answers = order.flatMap(({ replyTo }, at) => (replyTo === undefined ? [] : [at]));
    expect(cue).toBeGreaterThan(0);
    expect(cue).toBeLessThan(answers.at(-1) ?? 0);
    expect(standIn.violations).toEqual([]);
  }));

test("the socket is cut, told to reconnect, or loses its session: the bench is there again", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    for (const lose of [
      () => standIn.socket.drop(),
      () => standIn.socket.drop(4000),
      () => standIn.socket.reconnect(),
    ]) {
      lose();
      await recovers(scene, () => standIn.socket.count() > 0);
      await scene.pass(5);
      const before = ines.direct.messages.length;
      ines.dm("left");
      await recovers(scene, () => ines.direct.messages.length > before + 1);
      expect(ines.direct.messages.at(-1)?.content).toContain("No clock is running");
    }
    expect(standIn.violations).toEqual([]);
  }));

test("what was said while the socket was away is heard after it resumed, once", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    standIn.socket.drop();
    ines.dm("bottle fixer 1 litre mixed today");
    await recovers(scene, () => ines.direct.messages.at(-1)?.author === "Bench bot");
    const bottles = await ask(scene, ines, "bottles");
    expect(bottles.content?.match(/Acorn/g)).toHaveLength(1);
    expect(bottles.content).not.toContain("Birch");
    expect(standIn.violations).toEqual([]);
  }));

test("a callback that fails is made again in time", () =>
  withScene(async (scene) => {
    const { standIn, clock } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    standIn.faults.next({ route: "POST /interactions/:interaction/:token/callback", status: 503 });
    const asked = ines.slash("left", { channel: "wet-bench" });
    for (let turn = 0; turn < 20 && !asked.acknowledged; turn += 1) {
      await new Promise((resolve) => setTimeout(resolve, 20));
      await clock.pass(100);
    }
    await standIn.settled();
    expect(asked.acknowledged).toBe(true);
    expect(asked.content).toContain("No clock is running");
    expect(standIn.violations).toEqual([]);
  }));

test("however slow the disk, an interaction is acknowledged in time and answered when it can be", () =>
  withScene(async (scene) => {
    const { standIn, clock } = scene;
    const club = await openBenchAt(scene);
    await club.bot.stop();
    let free: (() => void) | undefined;
    await scene.start({
      slow: () =>
        new Promise((done) => {
          free = done;
        }),
    });
    const asked = club.ines.slash("say", {
      channel: "wet-bench",
      options: { sentence: "bottle fixer 1 litre mixed today" },
    });
    for (let turn = 0; turn < 29 && !asked.acknowledged; turn += 1) {
      await new Promise((resolve) => setTimeout(resolve, 10));
      await clock.pass(100);
    }
    expect(asked.acknowledged).toBe(true);
    expect(club.posts.at(-1)?.loading).toBe(true);
    await clock.pass(60_000);
    free?.();
    await recovers(scene, () => club.posts.at(-1)?.loading === false);
    expect(asked.content).toContain("Acorn");
    expect(standIn.violations).toEqual([]);
  }));
