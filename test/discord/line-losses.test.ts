import { expect, test } from "vitest";
import { eventually, type Scene, TOKEN, withScene } from "./support/bot.ts";
import { ask, type Club, foundClub, openBenchAt } from "./support/club.ts";

async function running(scene: Scene): Promise<Club & Awaited<ReturnType<typeof openBenchAt>>> {
  const club = await openBenchAt(scene);
  await ask(scene, club.ines, "start developer for 6 minutes tank north");
  await scene.pass(31);
  return club;
}

const late = (club: Club): string =>
  club.posts
    .map(({ content }) => content)
    .filter((content) => /late/i.test(content))
    .join("\n");

/** Codes after which Discord will not have a bot back as it is ("Gateway Close Event Codes"). */
test.each([
  { code: 4004, says: "does not accept DISCORD_TOKEN any more" },
  { code: 4010, says: "set DISCORD_SHARDS and DISCORD_SHARD_COUNT" },
  { code: 4011, says: "set DISCORD_SHARDS and DISCORD_SHARD_COUNT" },
  { code: 4012, says: "this Wetside is too old" },
  { code: 4013, says: "this Wetside is too old" },
])(
  "closed with $code: says what to mend, sends nothing more, and the run's clock goes on",
  ({ code, says }) =>
    withScene(async (scene) => {
      const { standIn, pass } = scene;
      const club = await running(scene);
      const identified = standIn.identifies.length;
      standIn.socket.drop(code);
      const why = await club.bot.discord.over;
      expect(why).toContain(says);
      const { length } = standIn.requests;
      await pass(400);
      expect(standIn.requests.length).toBe(length);
      expect(standIn.identifies).toHaveLength(identified);
      const [run] = Object.values((await club.bot.record()).bench.runs);
      expect(run?.ending).toBe("by the clock");
      expect(JSON.stringify([why, club.bot.notes])).not.toContain(TOKEN);
      expect(standIn.violations).toEqual([]);
    }),
);

test("intents refused although none is asked for that needs leave: it ends, and does not ask for ever", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const { bot } = await openBenchAt(scene);
    standIn.socket.drop(4014);
    await eventually(() => standIn.identifies.length === 2);
    await scene.pass(1);
    standIn.socket.drop(4014);
    expect(await bot.discord.over).toContain("Say npm run doctor");
    expect(standIn.identifies).toHaveLength(2);
    expect(standIn.violations).toEqual([]);
  }));

test("away for hours, its session forgotten: it is back by itself, tells once what it missed, and hears", () =>
  withScene(async (scene) => {
    const { standIn, clock, pass } = scene;
    const club = await running(scene);
    await standIn.socket.down({ forget: true });
    // In real time longer than the library's pause between two tries, several times.
    for (let turn = 0; turn < 20; turn += 1) {
      await clock.pass(10 * 60_000);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    // On its way back it finds the service half up.
    standIn.faults.next({ route: "GET /gateway/bot", status: 503, times: 2 });
    await standIn.socket.up();
    await eventually(() => late(club) !== "", 1000);
    await pass(2);
    expect(late(club).match(/last time is over/g)).toHaveLength(1);
    await eventually(() => standIn.socket.count() === 1);
    club.ines.dm("left");
    await eventually(() => club.ines.direct.messages.at(-1)?.author === "Bench bot");
    expect(club.ines.direct.messages.at(-1)?.content).toContain("No clock is running");
    expect(standIn.violations).toEqual([]);
  }));

test("started while Discord is down: it says so once, goes on trying, and is there when it can be", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    foundClub(scene);
    await standIn.socket.down();
    const bot = await scene.start({ unconnected: true });
    await new Promise((resolve) => setTimeout(resolve, 1200));
    expect(bot.notes).toEqual([expect.stringContaining("I cannot reach Discord yet")]);
    await standIn.socket.up();
    await bot.discord.connected;
    expect(standIn.violations).toEqual([]);
  }));

test("stopped for haste everywhere at once, the cue waits as told and comes once", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await running(scene);
    const told = () => club.posts.filter(({ content }) => content.includes("is the developer in?"));
    standIn.faults.next({
      route: "POST /channels/:channel/messages",
      status: 429,
      retryAfter: 0.3,
      scope: "global",
    });
    const { length } = standIn.requests;
    await pass(20);
    await eventually(() => told().length > 0);
    const [refused, ...after] = standIn.requests.slice(length);
    expect(refused?.status).toBe(429);
    // Nothing goes out anywhere before the time that was told.
    for (const { arrived } of after)
      expect(arrived - (refused?.arrived ?? 0)).toBeGreaterThanOrEqual(299);
    expect(told()).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));

test("posted, its answer lost, then away until its nonce is forgotten: still only once", () =>
  withScene(async (scene) => {
    const { standIn, clock, pass } = scene;
    const club = await running(scene);
    const said = () => club.posts.map(({ content }) => content).join("\n");
    standIn.faults.next({
      route: "POST /channels/:channel/messages",
      drop: "hang",
      performed: true,
    });
    // The socket is lost first: it would bring the message itself.
    standIn.socket.drop();
    await clock.pass(9_500);
    await eventually(() => club.posts.some(({ content }) => content.startsWith("North: agitate")));
    await standIn.socket.down({ forget: true });
    await clock.pass(10 * 60_000);
    await new Promise((resolve) => setTimeout(resolve, 700));
    await standIn.socket.up();
    await eventually(() => standIn.socket.count() === 1);
    await pass(2);
    await eventually(() => said().includes("last time is over"));
    expect(said().match(/North: agitate 30 seconds/g)).toHaveLength(1);
    expect(said().match(/is the developer in\?/g)).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));
