import { Events } from "discord.js";
import { expect, test } from "vitest";
import { clientOf } from "./support/client.ts";
import { setUp, TOKEN } from "./support/set-up.ts";

const POST = "POST /channels/:channel/messages";
const contents = (messages: readonly { content: string }[]): string[] =>
  messages.map(({ content }) => content);

test("a fault strikes the next requests of its route, and no others", async () => {
  const { call, bench, discord, guild } = await setUp();
  discord.faults.next({ route: POST, status: 503, times: 2 });
  discord.faults.next({ route: "GET /channels/:channel", status: 500 });
  const post = async (content: string): Promise<number> =>
    (await call("POST", `${bench}/messages`, { content })).status;
  expect((await call("GET", "/users/@me")).status).toBe(200);
  expect([await post("a"), await post("b"), await post("c")]).toEqual([503, 503, 200]);
  expect(discord.faults.left()).toBe(1);
  discord.faults.clear();
  expect((await call("GET", bench)).status).toBe(200);
  expect(contents(guild.channel("bench").messages)).toEqual(["c"]);
  expect(discord.violations).toEqual([]);
});

test.each([
  { drop: true, performed: false },
  { drop: true, performed: true },
  { status: 502, performed: true },
])("whether the request was carried out is for the test to say: %j", async (fault) => {
  const { call, bench, discord, guild } = await setUp();
  discord.faults.next({ route: POST, ...fault });
  const sent = call("POST", `${bench}/messages`, { content: "c" });
  if ("drop" in fault && fault.drop) await expect(sent).rejects.toThrow();
  else expect((await sent).status).toBe(502);
  expect(guild.channel("bench").messages).toHaveLength(fault.performed ? 1 : 0);
  expect(discord.requests.at(-1)).toMatchObject({
    performed: fault.performed,
    status: "drop" in fault && fault.drop ? "drop" : 502,
  });
});

// Message resource, "Create Message": nonce and enforce_nonce.
test("a nonce that is enforced gives the first message back, for some minutes", async () => {
  const { call, bench, clock, guild } = await setUp();
  const send = (more: object) => call("POST", `${bench}/messages`, { content: "c", ...more });
  const first = await send({ nonce: "n1", enforce_nonce: true });
  expect(first.body.nonce).toBe("n1");
  const second = await send({ nonce: "n1", enforce_nonce: true, content: "other" });
  expect([second.status, second.body.id, second.body.content]).toEqual([200, first.body.id, "c"]);
  expect((await send({ nonce: "n2", enforce_nonce: true })).body.id).not.toBe(first.body.id);
  expect((await send({ nonce: "n1" })).body.id).not.toBe(first.body.id);
  clock.advance(6 * 60_000);
  expect((await send({ nonce: "n1", enforce_nonce: true })).body.id).not.toBe(first.body.id);
  expect(guild.channel("bench").messages).toHaveLength(4);
});

test("the client's own retry after a silent success doubles a message, but not with a nonce", async () => {
  const { discord, guild } = await setUp();
  const client = clientOf(discord, { rest: { retries: 3, timeout: 150 } });
  try {
    await client.login(TOKEN);
    await discord.settled();
    const channel = await client.channels.fetch(guild.channel("bench").id);
    if (channel?.isSendable() !== true) throw new Error("no channel");
    discord.faults.next({ route: POST, drop: "hang", performed: true });
    await channel.send("doubled");
    discord.faults.next({ route: POST, drop: "hang", performed: true });
    await channel.send({ content: "single", nonce: "n1", enforceNonce: true });
    expect(contents(guild.channel("bench").messages)).toEqual(["doubled", "doubled", "single"]);
  } finally {
    await client.destroy();
  }
});

test("an answer can be late", async () => {
  const { call, discord } = await setUp();
  discord.faults.next({ route: "GET /users/@me", delayMs: 60 });
  const start = performance.now();
  expect((await call("GET", "/users/@me")).status).toBe(200);
  expect(performance.now() - start).toBeGreaterThan(50);
});

test("an injected 429 has headers, or none at all", async () => {
  const { call, discord } = await setUp();
  discord.faults.next({ route: "GET /users/@me", status: 429, retryAfter: 0.25 });
  discord.faults.next({ route: "GET /users/@me", status: 429, retryAfter: 0 });
  const honest = await call("GET", "/users/@me");
  expect([honest.headers.get("retry-after"), honest.body.retry_after]).toEqual(["0.25", 0.25]);
  const bare = await call("GET", "/users/@me");
  expect([bare.status, bare.headers.get("retry-after")]).toEqual([429, null]);
});

const reconnects: [string, (discord: Awaited<ReturnType<typeof setUp>>["discord"]) => void][] = [
  ["close 1001", ({ socket }) => socket.drop(1001)],
  ["close 4000", ({ socket }) => socket.drop(4000)],
  ["close 4009", ({ socket }) => socket.drop(4009)],
  ["a broken line", ({ socket }) => socket.drop()],
  ["opcode 7", ({ socket }) => socket.reconnect()],
];

test.each(reconnects)("the real client resumes after %s and misses nothing", async (_, cut) => {
  const { discord, ana } = await setUp();
  const client = clientOf(discord);
  const heard: string[] = [];
  client.on(Events.MessageCreate, ({ content }) => heard.push(content));
  try {
    await client.login(TOKEN);
    await discord.settled();
    const resumed = new Promise((resolve) => client.once(Events.ShardResume, resolve));
    cut(discord);
    ana.dm("meanwhile");
    await resumed;
    ana.dm("afterwards");
    await discord.settled();
    expect(heard).toEqual(["meanwhile", "afterwards"]);
    expect(discord.identifies).toHaveLength(1);
    expect(discord.violations).toEqual([]);
  } finally {
    await client.destroy();
  }
});

test("a dead line is noticed by the client, which comes back", async () => {
  const { discord, ana } = await setUp({}, { heartbeatMs: 60 });
  const client = clientOf(discord);
  const heard: string[] = [];
  client.on(Events.MessageCreate, ({ content }) => heard.push(content));
  try {
    await client.login(TOKEN);
    await discord.settled();
    const resumed = new Promise((resolve) => client.once(Events.ShardResume, resolve));
    discord.socket.deafen();
    ana.dm("into the dark");
    await new Promise((resolve) => client.once(Events.ShardReconnecting, resolve));
    discord.socket.deafen(false);
    await resumed;
    await discord.settled();
    expect(heard).toEqual(["into the dark"]);
  } finally {
    await client.destroy();
  }
});

test("down and up again: connections are refused, then the client is back", async () => {
  const { discord, call } = await setUp();
  const client = clientOf(discord);
  try {
    await client.login(TOKEN);
    await discord.settled();
    await discord.socket.down({ forget: true });
    await expect(call("GET", "/users/@me")).rejects.toThrow();
    const ready = new Promise((resolve) => client.once(Events.ShardReady, resolve));
    await discord.socket.up();
    await ready;
    expect((await call("GET", "/users/@me")).status).toBe(200);
    expect(discord.socket.count()).toBe(1);
  } finally {
    await client.destroy();
  }
});
