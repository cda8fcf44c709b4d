import { expect, test } from "vitest";
import { customId } from "../../src/channels/discord/words/custom-id.ts";
import { type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt, openSecondBench, withButton } from "./support/club.ts";

/** What the bench holds, told by itself. */
async function state(scene: Scene, club: Awaited<ReturnType<typeof openBenchAt>>): Promise<string> {
  await scene.pass(30);
  const told: string[] = [];
  for (const sentence of ["bottles", "left", "reminders"]) {
    told.push(String((await ask(scene, club.ines, sentence)).content));
  }
  return told.join("\n");
}

test.each([
  { what: "2,001 characters", text: "left ".repeat(401).slice(0, 2001) },
  {
    what: "right-to-left and zero-width signs",
    text: "\u202Etsac sllit\u202C \u200B\u200D\u2066stop\u2069",
  },
  { what: "nothing but invisible signs", text: "\u200B\u2060\uFEFF\u00AD" },
  { what: "marks piled up", text: `s${"\u0301".repeat(300)}top` },
  { what: "mentions and markup", text: "@everyone **undo** <@&1> [x](https://example.org) `rm`" },
  { what: "half a character", text: "\uD800 stop \uDC00" },
])("$what: a polite answer, nothing pinged, nothing changed", ({ text }) =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    await ask(scene, club.ines, "bottle fixer 1 litre mixed today");
    const before = await state(scene, club);
    const asked = club.ines.slash("say", {
      channel: BENCH,
      options: { sentence: text.slice(0, 1000) },
    });
    await standIn.settled();
    expect(asked.acknowledged).toBe(true);
    const posts = club.posts.length;
    club.rui.says(BENCH, text);
    await standIn.settled();
    const answers = club.posts.slice(posts).filter(({ author }) => author === "Bench bot");
    for (const { pinged, content } of answers) {
      expect(pinged).toEqual([]);
      expect(content).not.toMatch(/@everyone|\[x\]\(/);
    }
    expect(await state(scene, club)).toBe(before);
    expect(standIn.violations).toEqual([]);
  }),
);

test("forged, damaged and foreign buttons change nothing and are refused for one person alone", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await ask(scene, ines, "start blix for 6 minutes tank north");
    const message = withButton(club.posts, "ready");
    const real = message.buttons.find(({ label }) => label === "ready")?.customId ?? "";
    const forged = [
      "nonsense",
      "w1:",
      "",
      `${real}x`,
      real.replace("ready", "stop"),
      customId.make({ bench: "c999999999999999999", word: "next" }),
      customId.make({ bench: "../../home", word: "at" }),
      customId.make({ bench: "__proto__", word: "share-yes", asked: "constructor" }),
      `w9:${real.slice(3)}`,
      "\u202E".repeat(100),
    ].filter((id) => id !== "");
    for (const id of forged) {
      const pressed = ines.press(message, id, { forged: true });
      await standIn.settled();
      expect(pressed, id).toMatchObject({ acknowledged: true, ephemeral: true });
      await scene.pass(2);
    }
    const left = await ask(scene, ines, "left");
    expect(left.content).toContain("North");
    expect(standIn.violations).toEqual([]);
  }));

test("a button of another bench does nothing here", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await openSecondBench(scene, ines);
    await ask(scene, ines, "start blix for 6 minutes tank north");
    await ask(scene, ines, "start blix for 6 minutes tank north", "second-bench");
    const here = withButton(club.posts, "ready").buttons.find(({ label }) => label === "ready");
    const there = withButton(standIn.channel("second-bench").messages, "ready");
    const pressed = ines.press(there, here?.customId ?? "", { forged: true });
    await standIn.settled();
    expect(pressed).toMatchObject({ ephemeral: true });
    expect(pressed.content).toContain("another bench");
    expect(standIn.violations).toEqual([]);
  }));

test("an interaction that comes twice is heard once, and a button pressed twice acts once", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    const once = ines.slash("say", {
      channel: BENCH,
      options: { sentence: "bottle fixer 1 litre mixed today" },
    });
    once.replay();
    await standIn.settled();
    once.replay();
    await standIn.settled();
    expect((await ask(scene, ines, "bottles")).content?.match(/fixer, 1 L/g)).toHaveLength(1);
    await ask(scene, ines, "start blix for 6 minutes tank north");
    const ready = withButton(club.posts, "ready");
    const first = ines.press(ready, "next");
    const second = ines.press(ready, "next");
    await standIn.settled();
    expect([first.ephemeral, second.ephemeral].filter((one) => one)).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));

test("files nobody asked for are refused, and what is written beside them is not done", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const bytes = new Uint8Array([1, 2, 3]);
    club.ines.says(BENCH, "bottle fixer 1 litre mixed today", {
      files: [{ name: "a.exe", bytes }],
    });
    club.ines.dm("", { files: [{ name: "b.png", bytes }] });
    await standIn.settled();
    expect(club.posts.at(-1)?.content).toContain("I take no files here");
    expect(club.ines.direct.messages.at(-1)?.content).toContain("I take no files here");
    expect((await ask(scene, club.ines, "bottles")).content).not.toContain("fixer, 1 L");
    expect(standIn.violations).toEqual([]);
  }));

test("fifty commands in a second from one member: some are heard, the rest refused, others served", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, rui } = club;
    const asked = Array.from({ length: 50 }, (_, at) =>
      rui.slash("say", { channel: BENCH, options: { sentence: `note number ${at}` } }),
    );
    const mine = ines.slash("left", { channel: BENCH });
    await standIn.settled();
    expect(asked.every(({ acknowledged }) => acknowledged)).toBe(true);
    const refused = asked.filter(({ content }) => content?.includes("more than I can follow"));
    expect(refused.length).toBeGreaterThan(30);
    expect(refused.every(({ ephemeral }) => ephemeral)).toBe(true);
    expect(mine.content).toContain("No clock is running");
    for (let at = 0; at < 50; at += 1) rui.says(BENCH, `note line ${at}`);
    await standIn.settled();
    expect(
      club.posts.filter(({ content }) => content.includes("more than I can follow")).length,
    ).toBeLessThanOrEqual(1);
    // First aid is heard all the same.
    rui.says(BENCH, "eyes");
    await standIn.settled();
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(club.posts.at(-1)?.content).toMatch(/rinse|water/i);
    expect(standIn.violations).toEqual([]);
  }));

test("messages of bots, webhooks and edits are no commands", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const said = club.ines.says(BENCH, "left");
    await standIn.settled();
    const posts = club.posts.length;
    club.ines.edits(said, "bottle fixer 1 litre mixed today");
    await standIn.settled();
    expect(club.posts).toHaveLength(posts);
    expect(standIn.violations).toEqual([]);
  }));
