import { expect, test } from "vitest";
import { type Scene, TOKEN, withScene } from "./support/bot.ts";
import { ask, BENCH, type Club, foundClub, openBenchAt } from "./support/club.ts";

async function running(scene: Scene): Promise<Club & Awaited<ReturnType<typeof openBenchAt>>> {
  const club = await openBenchAt(scene);
  await ask(scene, club.rui, "start blix for 6 minutes tank north");
  await scene.pass(31);
  return club;
}

test("a token that is revoked while connected: it says what to mend, once, without the token", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const { bot } = await running(scene);
    standIn.revokeToken();
    const why = await bot.discord.over;
    expect(why).toContain("does not accept DISCORD_TOKEN any more");
    const requests = standIn.requests.length;
    await pass(120);
    expect(standIn.requests.length - requests).toBeLessThanOrEqual(1);
    expect(JSON.stringify([why, bot.notes])).not.toContain(TOKEN);
  }));

test("a token that was never good is told of at once", () =>
  withScene(async (scene) => {
    foundClub(scene);
    scene.standIn.revokeToken();
    const bot = await scene.start({ unconnected: true });
    expect(await bot.discord.over).toContain("DISCORD_TOKEN");
  }));

test("without permission in the channel, cues go to whoever started the run, and whoever opened the bench is told", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await running(scene);
    standIn.denyPermission(BENCH, ["SendMessages"]);
    const before = club.posts.length;
    await pass(30);
    expect(club.posts).toHaveLength(before);
    expect(club.rui.direct.messages.map(({ content }) => content).join()).toContain(
      "is the blix in?",
    );
    expect(club.ines.direct.messages.at(-1)?.content).toContain("may not write in #wet-bench");
    standIn.allowPermission(BENCH, ["SendMessages"]);
    await pass(330);
    expect(club.posts.at(-1)?.content).toContain("North");
    expect(club.ines.direct.messages).toHaveLength(1);
    expect(standIn.invalidRequests()).toBeLessThan(20);
    expect(standIn.violations).toEqual([]);
  }));

test("a channel that is deleted leaves the bench as it is, to be opened in another", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await running(scene);
    await ask(scene, club.ines, "bottle blix 1 litre mixed today");
    standIn.deleteChannel(BENCH);
    await pass(30);
    expect(club.ines.direct.messages.at(-1)?.content).toContain("The channel #wet-bench is gone");
    expect(club.rui.direct.messages.map(({ content }) => content).join()).toContain("North: ");
    standIn.addChannel("Film club", {
      name: "new-bench",
      overwrites: [
        { for: "@everyone", deny: ["ViewChannel"] },
        { for: "bot", allow: ["ViewChannel", "SendMessages", "ReadMessageHistory"] },
        { for: "Ines", allow: ["ViewChannel", "SendMessages"] },
      ],
    });
    const offered = club.ines.autocomplete("wetside open", {
      channel: "new-bench",
      option: "bench",
      typed: "",
    });
    await standIn.settled();
    expect(offered.choices?.map(({ name }) => name)).toEqual(["#wet-bench"]);
    const bench = String(offered.choices?.[0]?.value);
    club.ines.slash("wetside open", { channel: "new-bench", options: { bench } });
    await standIn.settled();
    expect((await ask(scene, club.ines, "bottles", "new-bench")).content).toContain("Acorn");
    await pass(360);
    const moved = standIn
      .channel("new-bench")
      .messages.map(({ content }) => content)
      .join("\n");
    expect(moved).toContain("North: pour out.");
    expect(standIn.violations).toEqual([]);
  }));

test("put out of the server it is silent; invited again the bench is there with its run", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await running(scene);
    standIn.kickBot("Film club");
    await pass(60);
    const before = club.posts.length;
    standIn.inviteBot("Film club");
    standIn.allowPermission(BENCH, ["ViewChannel", "SendMessages", "ReadMessageHistory"]);
    await pass(300);
    expect(club.posts.length).toBeGreaterThan(before);
    expect((await ask(scene, club.ines, "summary")).content).toContain("blix");
    expect(standIn.violations).toEqual([]);
  }));

test("put out while nobody was connected is seen at the next start", () =>
  withScene(async (scene) => {
    const { standIn, pass, start } = scene;
    const club = await running(scene);
    await club.bot.stop();
    standIn.kickBot("Film club");
    await start();
    await pass(400);
    expect(standIn.invalidRequests()).toBeLessThan(5);
    expect(standIn.violations).toEqual([]);
  }));

test("a channel that becomes visible to everyone is told to whoever opened the bench", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    standIn.allowPermission(BENCH, ["ViewChannel"], "@everyone");
    await pass(1);
    expect(club.ines.direct.messages.at(-1)?.content).toContain(
      "Everyone in the server can see #wet-bench",
    );
    expect(standIn.violations).toEqual([]);
  }));

test("the message-content intent is taken back: it connects again without it", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    club.app.allow({ messageContent: false });
    standIn.socket.drop(4014);
    for (let turn = 0; turn < 200 && standIn.identifies.length < 2; turn += 1) {
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    await pass(1);
    club.ines.dm("left");
    await standIn.settled();
    expect(club.ines.direct.messages.at(-1)?.content).toContain("No clock is running");
    expect(standIn.violations).toEqual([]);
  }));

test("the session is declared invalid: it logs in anew and gives its cues", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await running(scene);
    standIn.socket.invalidSession();
    await pass(30);
    expect(club.posts.map(({ content }) => content).join()).toContain("is the blix in?");
    expect(standIn.violations).toEqual([]);
  }));

test("closed by an administrator in the middle of a run, the rest of it is told by the clock", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await running(scene);
    const closed = club.ines.slash("wetside close", { channel: BENCH });
    await standIn.settled();
    expect(closed).toMatchObject({ ephemeral: true });
    expect(closed.content).toContain("A run is open, and nobody is told its cues any more:");
    expect(closed.content).toMatch(/North: .*pour out \d\d:\d\d:\d\d/);
    const last = club.posts.at(-1);
    expect(last?.content).toContain("Go by the clock:");
    expect(last?.pinged).toEqual(["Rui"]);
    expect(last?.buttons).toEqual([]);
    await pass(600);
    expect(club.posts.at(-1)?.id).toBe(last?.id);
    club.ines.slash("wetside open", { channel: BENCH });
    await standIn.settled();
    expect((await ask(scene, club.ines, "left")).content).toContain("No clock is running");
    expect(standIn.violations).toEqual([]);
  }));
