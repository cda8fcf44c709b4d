import { GatewayIntentBits, GatewayOpcodes as Op } from "discord-api-types/v10";
import { expect, test } from "vitest";
import { setUp, TOKEN } from "./support/set-up.ts";
import { identifyPayload, openWire, readyWire, type Wire } from "./support/wire.ts";

// Source of this file: Gateway, and "Gateway Close Event Codes".
const { Guilds, GuildMessages, DirectMessages, MessageContent, GuildMembers } = GatewayIntentBits;
const numbers = (wire: Wire): (number | undefined)[] =>
  wire.frames.filter(({ op }) => op === Op.Dispatch).map(({ s }) => s);
const names = (wire: Wire): (string | undefined)[] =>
  wire.frames.filter(({ op }) => op === Op.Dispatch).map(({ t }) => t);

test("hello, identify, ready, then the guilds, numbered from 1", async () => {
  const { discord, app, guild } = await setUp();
  const wire = await readyWire(discord, TOKEN);
  const created = await wire.dispatched("GUILD_CREATE");
  expect(wire.frames[0]).toEqual({ op: Op.Hello, d: { heartbeat_interval: 41_250 } });
  expect(wire.frames[1]?.d).toMatchObject({
    v: 10,
    user: { id: app.botId, bot: true },
    guilds: [{ id: guild.id, unavailable: true }],
    shard: [0, 1],
  });
  expect(created.d).toMatchObject({ id: guild.id, unavailable: false, member_count: 4 });
  expect(created.d.members.map(({ user }: { user: { id: string } }) => user.id)).toEqual([
    app.botId,
  ]);
  expect(numbers(wire)).toEqual([1, 2]);
  await wire.close(4000);
});

test.each<[number, string, (wire: Wire) => void]>([
  [4004, "a wrong token", (wire) => wire.send(Op.Identify, identifyPayload("wrong"))],
  [
    4013,
    "intents nobody knows",
    (wire) => wire.send(Op.Identify, identifyPayload(TOKEN, { intents: 2 ** 30 })),
  ],
  [
    4014,
    "content that is not allowed",
    (wire) => wire.send(Op.Identify, identifyPayload(TOKEN, { intents: MessageContent })),
  ],
  [
    4014,
    "members that are not allowed",
    (wire) => wire.send(Op.Identify, identifyPayload(TOKEN, { intents: GuildMembers })),
  ],
  [
    4010,
    "a shard beyond the count",
    (wire) => wire.send(Op.Identify, identifyPayload(TOKEN, { shard: [2, 2] })),
  ],
  [4003, "a request before identifying", (wire) => wire.send(Op.RequestGuildMembers, {})],
  [4001, "an opcode nobody knows", (wire) => wire.send(99)],
  [4001, "one that only the server sends", (wire) => wire.send(Op.Hello)],
  [4002, "what is no JSON", (wire) => wire.sendText("{")],
  [4002, "more than 4096 bytes", (wire) => wire.send(Op.PresenceUpdate, "x".repeat(4096))],
  [
    4002,
    "an identify of other fields",
    (wire) => wire.send(Op.Identify, { ...identifyPayload(TOKEN), tokens: 1 }),
  ],
])("closes with %i on %s", async (code, _, act) => {
  const { discord } = await setUp();
  const wire = await openWire(discord);
  act(wire);
  expect(await wire.closed).toBe(code);
});

test("closes with 4005 on a second identify, 4012 on another version", async () => {
  const { discord } = await setUp();
  const wire = await readyWire(discord, TOKEN);
  wire.send(Op.Identify, identifyPayload(TOKEN));
  expect(await wire.closed).toBe(4005);
  expect(await (await openWire(discord, "?v=9&encoding=json")).closed).toBe(4012);
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual(["close-4005"]);
});

test("closes with 4008 after 120 sends in a minute, heartbeats among them", async () => {
  const { discord } = await setUp({}, { pace: 1 });
  const wire = await readyWire(discord, TOKEN);
  for (let sent = 0; sent < 60; sent += 1) wire.send(Op.PresenceUpdate, {});
  for (let sent = 0; sent < 59; sent += 1) wire.send(Op.Heartbeat, 1);
  await wire.until(({ op }) => op === Op.HeartbeatAck);
  wire.send(Op.PresenceUpdate, {});
  expect(await wire.closed).toBe(4008);
});

test("heartbeats are answered, asked for, and missed after a while", async () => {
  const { discord } = await setUp({}, { heartbeatMs: 600 });
  const wire = await readyWire(discord, TOKEN);
  wire.send(Op.Heartbeat, 1);
  expect(await wire.until(({ op }) => op === Op.HeartbeatAck)).toEqual({ op: Op.HeartbeatAck });
  discord.socket.askHeartbeat();
  await wire.until(({ op }) => op === Op.Heartbeat);
  expect(await wire.closed).toBe(4009);
});

test("resumes with what was missed, in order, and goes on numbering", async () => {
  const { discord, ana } = await setUp();
  const wire = await readyWire(discord, TOKEN);
  const ready = await wire.dispatched("READY");
  ana.says("bench", "one");
  await wire.dispatched("MESSAGE_CREATE");
  await wire.close(4000);
  await discord.settled();
  ana.says("bench", "two");
  ana.says("bench", "three");
  const again = await openWire(discord);
  again.send(Op.Resume, { token: TOKEN, session_id: ready.d.session_id, seq: 3 });
  await again.dispatched("RESUMED");
  expect(names(again)).toEqual(["MESSAGE_CREATE", "MESSAGE_CREATE", "RESUMED"]);
  expect(numbers(again)).toEqual([4, 5, 6]);
  ana.says("bench", "four");
  expect((await again.until(({ s }) => s === 7)).t).toBe("MESSAGE_CREATE");
  await again.close();
});

async function tryResume(
  setting: Awaited<ReturnType<typeof setUp>>,
  before: (wire: Wire) => Promise<void>,
  more: object = {},
): Promise<Wire> {
  const wire = await readyWire(setting.discord, TOKEN);
  const { d } = await wire.dispatched("READY");
  await before(wire);
  await setting.discord.settled();
  const again = await openWire(setting.discord);
  again.send(Op.Resume, { token: TOKEN, session_id: d.session_id, seq: 1, ...more });
  return again;
}

test("a session ends when the client says good-bye, or after some minutes, or by command", async () => {
  const setting = await setUp();
  const { discord, clock } = setting;
  const left = await tryResume(setting, (wire) => wire.close(1000));
  expect(await left.until(({ op }) => op === Op.InvalidSession)).toMatchObject({ d: false });
  await left.close();
  const old = await tryResume(setting, async (wire) => {
    await wire.close(4000);
    await discord.settled();
    clock.advance(6 * 60_000);
  });
  expect(await old.until(({ op }) => op === Op.InvalidSession)).toMatchObject({ d: false });
  await old.close();
  const told = await tryResume(setting, async (wire) => {
    discord.socket.invalidSession();
    expect(await wire.until(({ op }) => op === Op.InvalidSession)).toMatchObject({ d: false });
    await wire.close(4000);
  });
  await told.until(({ op }) => op === Op.InvalidSession);
  await told.close();
});

test("closes with 4007 for a number that was never sent, 4004 for another token", async () => {
  const setting = await setUp();
  const ahead = await tryResume(setting, (wire) => wire.close(4000), { seq: 99 });
  expect(await ahead.closed).toBe(4007);
  const foreign = await tryResume(setting, (wire) => wire.close(4000), { token: "wrong" });
  expect(await foreign.closed).toBe(4004);
});

test("without an intent its events stay away; interactions need none", async () => {
  const { discord, ana, call, app } = await setUp();
  await call("PUT", `/applications/${app.id}/commands`, [{ name: "mix", description: "Mix" }]);
  const heard = async (intents: number): Promise<(string | undefined)[]> => {
    const wire = await readyWire(discord, TOKEN, { intents });
    ana.says("bench", "hello");
    ana.dm("hello");
    ana.slash("mix");
    await wire.dispatched("INTERACTION_CREATE");
    await wire.close(1000);
    return names(wire);
  };
  expect(await heard(0)).toEqual(["READY", "INTERACTION_CREATE"]);
  expect(await heard(Guilds)).toEqual(["READY", "GUILD_CREATE", "INTERACTION_CREATE"]);
  expect(await heard(GuildMessages)).toEqual(["READY", "MESSAGE_CREATE", "INTERACTION_CREATE"]);
  expect(await heard(DirectMessages)).toEqual(["READY", "MESSAGE_CREATE", "INTERACTION_CREATE"]);
});

// Gateway, "Message Content Intent": direct messages, mentions of the bot, its own.
test("without the content intent the text is there only where it concerns the bot", async () => {
  const { discord, ana, app, call, bench } = await setUp();
  const contents = async (intents: number): Promise<string[]> => {
    const wire = await readyWire(discord, TOKEN, { intents });
    ana.says("bench", "to nobody");
    ana.says("bench", `${app.mention} to you`);
    ana.dm("between us");
    await call("POST", `${bench}/messages`, { content: "my own" });
    await wire.until(({ d }) => d?.content === "my own");
    await wire.close(1000);
    return wire.frames.filter(({ t }) => t === "MESSAGE_CREATE").map(({ d }) => d.content);
  };
  const fetched = async (): Promise<string> => {
    const said = ana.says("bench", "to nobody");
    return (await call("GET", `${bench}/messages/${said.id}`)).body.content;
  };
  const intents = GuildMessages | DirectMessages;
  const concerned = ["", `${app.mention} to you`, "between us", "my own"];
  expect(await contents(intents)).toEqual(concerned);
  expect(await fetched()).toBe("");
  app.allow({ messageContent: true });
  expect(await contents(intents)).toEqual(concerned);
  expect(await contents(intents | MessageContent)).toEqual(["to nobody", ...concerned.slice(1)]);
  expect(await fetched()).toBe("to nobody");
});

test("messages in a channel the bot does not see stay away", async () => {
  const { discord, ana } = await setUp({
    channels: ["bench", { name: "hidden", overwrites: [{ for: "bot", deny: ["ViewChannel"] }] }],
  });
  const wire = await readyWire(discord, TOKEN);
  ana.says("hidden", "psst");
  const said = ana.says("bench", "hello");
  await wire.dispatched("MESSAGE_CREATE");
  expect(wire.frames.filter(({ t }) => t === "MESSAGE_CREATE").map(({ d }) => d.id)).toEqual([
    said.id,
  ]);
  await wire.close();
});

// Gateway, "Sharding": (guild_id >> 22) % num_shards; direct messages go to shard 0.
test("each shard hears of its own guilds, the first of direct messages too", async () => {
  const { discord, ana } = await setUp({}, { app: { maxConcurrency: 2 } });
  const other = discord.guild({ name: "Other", channels: ["desk"], members: ["Cy"] });
  const ids = discord.member("Ana");
  expect(ids.id).toBe(ana.id);
  const wires = await Promise.all(
    [0, 1].map((which) =>
      readyWire(discord, TOKEN, {
        intents: Guilds | GuildMessages | DirectMessages,
        shard: [which, 2],
      }),
    ),
  );
  ana.says("bench", "hello");
  other.member("Cy").says("desk", "hello");
  ana.dm("hello");
  await discord.settled();
  const guilds = wires.map((wire) =>
    wire.frames.filter(({ t }) => t === "GUILD_CREATE").map(({ d }) => d.id),
  );
  expect(guilds.flat()).toHaveLength(2);
  guilds.forEach((list, which) => {
    for (const id of list) expect(Number((BigInt(id) >> 22n) % 2n)).toBe(which);
  });
  expect(new Set(guilds.map(({ length }) => length))).toEqual(new Set([1]));
  const direct = wires.map((wire) => wire.frames.some(({ d }) => d?.channel_type === 1));
  expect(direct).toEqual([true, false]);
  await Promise.all(wires.map((wire) => wire.close()));
});

// Gateway, "Sharding": required from 2,500 guilds on a connection.
test("more than 2,500 guilds want shards", async () => {
  const { discord } = await setUp();
  for (let founded = 1; founded < 2500; founded += 1)
    discord.guild({ name: `Guild ${founded}`, channels: [] });
  const full = await readyWire(discord, TOKEN, { intents: 0 });
  await full.close();
  discord.guild({ name: "One more", channels: [] });
  const over = await openWire(discord);
  over.send(Op.Identify, identifyPayload(TOKEN, { intents: 0 }));
  expect(await over.closed).toBe(4011);
});

test("identifying twice within the spacing is turned back; another rate limit key may", async () => {
  const { discord } = await setUp({}, { pace: 1, app: { maxConcurrency: 2 } });
  const first = await readyWire(discord, TOKEN, { shard: [0, 3] });
  const second = await readyWire(discord, TOKEN, { shard: [1, 3] });
  const third = await openWire(discord);
  third.send(Op.Identify, identifyPayload(TOKEN, { shard: [2, 3] }));
  expect(await third.until(({ op }) => op === Op.InvalidSession)).toMatchObject({ d: false });
  expect(discord.identifies.map(({ shard, accepted }) => [shard[0], accepted])).toEqual([
    [0, true],
    [1, true],
    [2, false],
  ]);
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual(["identify-spacing"]);
  await Promise.all([first, second, third].map((wire) => wire.close()));
});

test("gateway/bot names the socket and the limits", async () => {
  const { call, discord, app } = await setUp(
    {},
    { app: { maxConcurrency: 16, recommendedShards: 3 } },
  );
  const wire = await readyWire(discord, TOKEN);
  const { body } = await call("GET", "/gateway/bot");
  expect(body).toMatchObject({
    shards: 3,
    session_start_limit: { total: 1000, remaining: 999, max_concurrency: 16 },
  });
  expect(body.url).toMatch(/^ws:\/\/127\.0\.0\.1:/);
  expect((await call("GET", "/applications/@me")).body).toMatchObject({ id: app.id, flags: 0 });
  app.allow({ messageContent: true });
  // Application resource, "Application Flags": GATEWAY_MESSAGE_CONTENT_LIMITED is 1 << 19.
  expect((await call("GET", "/applications/@me")).body.flags).toBe(1 << 19);
  await wire.close();
});

test("members are found by id and by the start of their name, all of them with the intent", async () => {
  const { discord, guild, ana } = await setUp();
  const wire = await readyWire(discord, TOKEN);
  wire.send(Op.RequestGuildMembers, { guild_id: guild.id, user_ids: [ana.id], nonce: "n" });
  const chunk = await wire.dispatched("GUILD_MEMBERS_CHUNK");
  expect(chunk.d).toMatchObject({ members: [{ user: { id: ana.id } }], nonce: "n", not_found: [] });
  wire.send(Op.RequestGuildMembers, { guild_id: guild.id, query: "", limit: 0 });
  expect(await wire.closed).toBe(4014);
});
