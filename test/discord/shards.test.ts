import { expect, test } from "vitest";
import { eventually, type Scene, TOKEN, withScene } from "./support/bot.ts";
import { withButton } from "./support/club.ts";

const EPOCH = 1_420_070_400_000n;
/** A guild's id, made at that second, which is what decides its shard. */
const guildId = (second: number): string =>
  String((1_500_000_000_000n - EPOCH + BigInt(second)) << 22n);

const channels = [
  {
    name: "wet-bench",
    overwrites: [
      { for: "@everyone", deny: ["ViewChannel"] as const },
      { for: "bot", allow: ["ViewChannel", "SendMessages"] as const },
    ],
  },
];

test("a process of two shards hears the guilds of both, and they identify apart", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const app = standIn.application({ token: TOKEN });
    const guilds = [0, 1].map((second) =>
      standIn.guild({
        name: `Club ${second}`,
        id: guildId(second),
        channels,
        members: [{ name: `Ines ${second}`, owner: true }],
      }),
    );
    await scene.start({ shards: [0, 1], shardCount: 2 });
    for (let turn = 0; turn < 200 && standIn.identifies.length < 2; turn += 1) {
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    await standIn.settled();
    for (const [index, guild] of guilds.entries()) {
      const ines = guild.member(`Ines ${index}`);
      const opened = ines.slash("wetside open", { channel: guild.channel("wet-bench") });
      await standIn.settled();
      expect(opened.content).toContain("The bench is open");
      const asked = ines.slash("say", {
        channel: guild.channel("wet-bench"),
        options: { sentence: "how much water for 500 ml at 1+9" },
      });
      await standIn.settled();
      expect(asked.content).toContain("450 mL");
    }
    expect(standIn.identifies).toHaveLength(2);
    expect(app.registrations).toHaveLength(1);
    // The stand-in notes shards that identify within each other's spacing.
    expect(standIn.violations).toEqual([]);
  }));

test("a process of one shard of two leaves the other's benches alone", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    standIn.application({ token: TOKEN });
    const mine = standIn.guild({
      name: "Mine",
      id: guildId(2),
      channels,
      members: [{ name: "Ines", owner: true }],
    });
    const other = standIn.guild({
      name: "Other",
      id: guildId(3),
      channels,
      members: [{ name: "Rui", owner: true }],
    });
    await scene.start({ shards: [0], shardCount: 2 });
    const ids = [mine, other].map(({ id }) => Number((BigInt(id) >> 22n) % 2n));
    const here = ids[0] === 0 ? mine : other;
    const there = here === mine ? other : mine;
    const heard = here
      .member(here === mine ? "Ines" : "Rui")
      .slash("wetside open", { channel: here.channel("wet-bench") });
    const unheard = there
      .member(there === mine ? "Ines" : "Rui")
      .slash("wetside open", { channel: there.channel("wet-bench") });
    await standIn.settled();
    expect(heard.acknowledged).toBe(true);
    expect(unheard.acknowledged).toBe(false);
    expect(standIn.violations).toEqual([]);
  }));

/** A club whose guild falls to shard 1 of 2, with a bench and its owner Ines. */
function clubOfShardOne({ standIn }: Scene) {
  standIn.application({ token: TOKEN });
  const seconds = [4, 5].find((second) => (BigInt(guildId(second)) >> 22n) % 2n === 1n) ?? 4;
  const club = standIn.guild({
    name: "Far club",
    id: guildId(seconds),
    channels,
    members: [{ name: "Ines", owner: true }],
  });
  return { club, ines: club.member("Ines"), bench: club.channel("wet-bench") };
}

test("a direct message comes on the first shard and finds its bench on another of the same process", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const { ines, bench } = clubOfShardOne(scene);
    await scene.start({ shards: [0, 1], shardCount: 2 });
    await eventually(() => standIn.identifies.length === 2);
    await standIn.settled();
    ines.slash("wetside open", { channel: bench });
    await standIn.settled();
    ines.dm("set zone Europe/Madrid");
    await standIn.settled();
    // By the roles and the owner of a guild of the other shard.
    expect(ines.direct.messages.at(-1)?.content).toContain("Europe/Madrid");
    ines.dm("remind me in 2 minutes to rinse the reels");
    ines.slash("mine reminders", { channel: "dm", options: { where: "dm" } });
    await standIn.settled();
    await scene.pass(130);
    const reminder = withButton(ines.direct.messages, "done");
    ines.press(reminder, "done");
    await standIn.settled();
    expect(ines.direct.messages.at(-1)?.content).toContain("Ticked off");
    expect(standIn.violations).toEqual([]);
  }));

test("a process without the first shard hears no direct message, and says so where it sends one", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const { ines, bench } = clubOfShardOne(scene);
    await scene.start({ shards: [1], shardCount: 2 });
    ines.slash("wetside open", { channel: bench });
    await standIn.settled();
    ines.slash("mine reminders", { channel: bench, options: { where: "dm" } });
    await standIn.settled();
    const sentence = "remind me in 2 minutes to rinse the reels";
    ines.slash("say", { channel: bench, options: { sentence } });
    await standIn.settled();
    await scene.pass(130);
    const [reminder] = ines.direct.messages;
    expect(reminder?.content).toContain("Reminder: rinse the reels");
    expect(reminder?.content).toContain(`Answer in <#${bench.id}>`);
    expect(reminder?.buttons).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }));

test("the process that hears direct messages tells who is at another's bench where to say it", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const { ines } = clubOfShardOne(scene);
    await scene.start({ shards: [0], shardCount: 2 });
    ines.dm("left");
    await standIn.settled();
    expect(ines.direct.messages.at(-1)?.content).toContain("say it in the bench's channel");
    expect(standIn.violations).toEqual([]);
  }));
