import { expect, test } from "vitest";
import { withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt, openSecondBench, withButton } from "./support/club.ts";

test("who is not a member is refused for themselves alone, and changes nothing", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, tome } = club;
    await ask(scene, ines, "start blix for 6 minutes tank north");
    const before = club.posts.length;
    const asked = await ask(scene, tome, "stop");
    expect(asked).toMatchObject({ ephemeral: true });
    expect(asked.content).toContain("for its members only");
    const pressed = tome.press(withButton(club.posts, "ready"), "ready");
    await standIn.settled();
    expect(pressed).toMatchObject({ ephemeral: true });
    expect(tome.autocomplete).toBeDefined();
    tome.says(BENCH, "stop");
    tome.says(BENCH, `${club.app.mention} stop`);
    await standIn.settled();
    expect(club.posts.slice(before).filter(({ author }) => author !== "Tome")).toEqual([]);
    expect(tome.direct.messages.at(-1)?.content).toContain("for its members only");
    const left = await ask(scene, ines, "left");
    expect(left.content).toContain("North");
    expect(standIn.violations).toEqual([]);
  }));

test("first aid answers any member of the server: at the bench, in a mention, directly, by command", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, tome } = club;
    await ask(scene, ines, "dark");
    tome.says(BENCH, "fixer in my EYES");
    tome.says("general", `${club.app.mention} I swallowed some`);
    tome.dm("can't breathe");
    await standIn.settled();
    const commanded = tome.slash("emergency", { channel: "general", options: { kind: "eyes" } });
    await standIn.settled();
    // First lines of data/emergencies.json, where their sources stand.
    expect(club.posts.at(-1)?.content).toMatch(/rinse|water/i);
    expect(club.club.channel("general").messages.at(-1)?.author).toBe("Bench bot");
    expect(tome.direct.messages.at(-1)?.content).toMatch(/air|breath/i);
    expect(commanded.content).toMatch(/rinse|water/i);
    // Talk in other channels that is not to the bot is none of its business.
    tome.says("general", "that picture burns my eyes");
    await standIn.settled();
    expect(club.club.channel("general").messages.at(-1)?.author).toBe("Tome");
    expect(standIn.violations).toEqual([]);
  }));

test("a role lets its people in, for as long as they have it", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines, tome } = club;
    const { id } = club.club.role("printers");
    ines.slash("wetside role", { channel: BENCH, options: { role: id } });
    await standIn.settled();
    standIn.giveRole("Film club", "Tome", "printers");
    expect((await ask(scene, tome, "left")).content).not.toContain("members only");
    tome.dm("left");
    await standIn.settled();
    expect(tome.direct.messages.at(-1)?.content).toContain("No clock is running");
    standIn.takeRole("Film club", "Tome", "printers");
    expect((await ask(scene, tome, "left")).content).toContain("members only");
    expect(standIn.violations).toEqual([]);
  }));

test("without the intent plain sentences work directly and in a mention; with it in the channel as well", async () => {
  await withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    ines.dm("remind me tomorrow at 18:00 to order fixer");
    await standIn.settled();
    ines.says(BENCH, `${club.app.mention} reminders`);
    ines.says(BENCH, "reminders");
    await standIn.settled();
    expect(ines.direct.messages.at(-1)?.content).toContain("order fixer");
    const answers = club.posts.filter(({ author }) => author === "Bench bot");
    expect(answers).toHaveLength(1);
    expect(answers[0]?.content).toContain("order fixer");
    expect(standIn.violations).toEqual([]);
  });
  await withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, rui } = club;
    const said = ines.says(BENCH, "how much water for 500 ml at 1+9");
    await standIn.settled();
    expect(club.posts.at(-1)?.replyTo).toBe(said.id);
    expect(club.posts.at(-1)?.content).toContain("450 mL");
    ines.says(BENCH, `${rui.mention} shall we meet at eight?`);
    await standIn.settled();
    expect(club.posts.at(-1)?.author).toBe("Ines");
    expect(standIn.violations).toEqual([]);
  });
});

test("two with one display name are two people to the bench", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { nick: "Lab rat" });
    const { ines, rui } = club;
    const shown = ines.slash("wetside show", { channel: BENCH });
    await standIn.settled();
    expect(shown.content).toContain("(Lab rat to the bench)");
    expect(shown.content).toContain("(Lab rat 2 to the bench)");
    await ask(scene, ines, "how much water for a quart of developer");
    // The question is open for Ines alone.
    expect((await ask(scene, rui, "us")).content).not.toContain("946 mL");
    expect((await ask(scene, ines, "us")).content).toContain("946 mL");
    expect(standIn.violations).toEqual([]);
  }));

test("with several benches a direct message asks which, once, and is heard then", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await openSecondBench(scene, ines);
    ines.dm("remind me tomorrow at 18:00 to order fixer");
    await standIn.settled();
    const which = ines.direct.messages.at(-1);
    expect(which?.buttons.map(({ label }) => label)).toEqual(["#wet-bench", "#second-bench"]);
    ines.press({ id: which?.id ?? "" }, "#second-bench");
    await standIn.settled();
    expect(ines.direct.messages.at(-1)?.content).toContain("order fixer");
    const second = await ask(scene, ines, "reminders", "second-bench");
    expect(second.content).toContain("order fixer");
    expect((await ask(scene, ines, "reminders")).content).not.toContain("order fixer");
    ines.dm("reminders");
    await standIn.settled();
    expect(ines.direct.messages.at(-1)?.content).toContain("order fixer");
    expect(standIn.violations).toEqual([]);
  }));

test("who left the server is a member no more, also in direct messages", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    standIn.removeMember("Film club", "Rui");
    club.rui.dm("bottles");
    await standIn.settled();
    // Discord brings no message to somebody one shares no server with.
    expect(club.rui.direct.messages.map(({ author }) => author)).toEqual(["Rui"]);
    expect(standIn.violations).toEqual([]);
  }));

test("a bench that is closed says and hears nothing, and comes back as it was", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await ask(scene, ines, "bottle blix 1 litre mixed today");
    await ask(scene, ines, "start blix for 6 minutes tank north");
    await pass(60);
    ines.slash("wetside close", { channel: BENCH });
    await standIn.settled();
    const before = club.posts.length;
    await pass(120);
    expect((await ask(scene, ines, "left")).content).toContain("no bench in this channel");
    expect(club.posts).toHaveLength(before);
    ines.slash("wetside open", { channel: BENCH });
    await standIn.settled();
    expect((await ask(scene, ines, "bottles")).content).toContain("Acorn");
    expect(standIn.violations).toEqual([]);
  }));
