import { expect, test } from "vitest";
import { answering } from "./support/interactions.ts";
import { formCodes } from "./support/set-up.ts";

// Source of this file: Interactions, "Responding to an Interaction" and "Followup Messages".
const anonymous = { token: null };
const say = (content: string, more: object = {}): object => ({
  type: 4,
  data: { content, ...more },
});

test("the first answer is taken without a token, with 204; a second one is refused", async () => {
  const { ana, call, callback, discord } = await answering();
  const mixed = ana.slash("mix", { options: { total: 500 } });
  const path = await callback(mixed);
  const first = await call("POST", path, say("one"), anonymous);
  expect([first.status, first.body, first.headers.get("content-type")]).toEqual([
    204,
    undefined,
    null,
  ]);
  expect(mixed).toMatchObject({ acknowledged: true, ephemeral: false, content: "one" });
  expect(discord.violations).toEqual([]);
  const second = await call("POST", path, say("two"), anonymous);
  expect([second.status, second.body.code]).toEqual([400, 40060]);
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual(["second-acknowledgement"]);
});

test("with_response gives the callback and its message", async () => {
  const { ana, call, callback } = await answering();
  const mixed = ana.slash("mix");
  const { status, body } = await call(
    "POST",
    `${await callback(mixed)}?with_response=true`,
    say("one", { flags: 64 }),
    anonymous,
  );
  expect(status).toBe(200);
  expect(body).toMatchObject({
    interaction: { id: mixed.id, type: 2, response_message_ephemeral: true },
    resource: { type: 4, message: { content: "one" } },
  });
});

test("after 3 s the interaction is unknown, and the user saw a failure", async () => {
  const { ana, bench, call, callback, clock, discord } = await answering();
  const mixed = ana.slash("mix");
  const path = await callback(mixed);
  clock.advance(2990);
  expect(mixed.failed).toBe(false);
  clock.advance(40);
  expect(mixed.failed).toBe(true);
  expect(discord.violations).toEqual([{ kind: "no-acknowledgement", detail: mixed.id }]);
  const late = await call("POST", path, say("late"), anonymous);
  expect([late.status, late.body.code]).toEqual([404, 10062]);
  expect(discord.takeViolations().map(({ kind }) => kind)).toContain("late-acknowledgement");
  expect(discord.violations).toEqual([]);
  expect((await call("GET", `${bench}/messages`)).body).toEqual([]);
});

test("what nobody heard is a failure for the user and no fault of the bot", async () => {
  const { ana, clock, discord, wire } = await answering();
  await wire.close(4000);
  await discord.settled();
  const mixed = ana.slash("mix");
  clock.advance(3100);
  expect(mixed.failed).toBe(true);
  expect(discord.violations).toEqual([]);
});

test("a forged token or id is unknown", async () => {
  const { ana, call, callback, discord } = await answering();
  const path = await callback(ana.slash("mix"));
  const forged = await call("POST", path.replace(/[^/]+\/callback$/, "forged/callback"), say("x"));
  expect([forged.status, forged.body.code]).toEqual([404, 10062]);
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual(["unknown-interaction"]);
});

test.each([
  ["a command", 6],
  ["a command", 7],
  ["a command", 8],
  ["a completion", 4],
  ["a completion", 5],
  ["a completion", 9],
  ["a press", 8],
  ["a command", 1],
])("%s takes no callback of type %i", async (what, type) => {
  const { ana, bench, call, callback, discord } = await answering();
  const row = { type: 1, components: [{ type: 2, style: 1, label: "in", custom_id: "in" }] };
  const { body } = await call("POST", `${bench}/messages`, { content: "c", components: [row] });
  const handle =
    what === "a press"
      ? ana.press(body, "in")
      : what === "a completion"
        ? ana.autocomplete("mix", { option: "bottle", typed: "f" })
        : ana.slash("mix");
  const data: Record<number, object> = {
    4: { content: "c" },
    7: { content: "c" },
    8: { choices: [] },
    9: { custom_id: "f", title: "t", components: [{ type: 10, content: "c" }] },
  };
  const answer = await call("POST", await callback(handle), { type, data: data[type] ?? {} });
  expect([answer.status, answer.body.code]).toEqual([400, 50035]);
  expect(formCodes(answer.body.errors)[0]).toMatch(/^type: /);
  expect(handle.acknowledged).toBe(false);
  expect(discord.takeViolations()).not.toEqual([]);
});

test("a deferral shows that the bot thinks; @original fills it and keeps its privacy", async () => {
  const { ana, call, callback, webhook, guild } = await answering();
  const mixed = ana.slash("mix");
  const deferred = await call("POST", await callback(mixed), { type: 5, data: { flags: 64 } });
  expect(deferred.status).toBe(204);
  expect(mixed).toMatchObject({ acknowledged: true, responses: [], ephemeral: true });
  const hook = await webhook(mixed);
  const filled = await call("PATCH", `${hook}/messages/%40original`, { content: "done" });
  expect(filled).toMatchObject({ status: 200, body: { content: "done", flags: 64 } });
  expect(mixed.responses).toMatchObject([{ content: "done", ephemeral: true, edits: [] }]);
  expect(guild.channel("bench").messages).toEqual([]);
  expect(ana.sees("bench").map(({ content }) => content)).toEqual(["done"]);
  expect(guild.member("Bo").sees("bench")).toEqual([]);
});

test("the first follow-up after a deferral fills it, whatever its own flags; the next is new", async () => {
  const { ana, call, callback, webhook, guild } = await answering();
  const mixed = ana.slash("mix");
  await call("POST", await callback(mixed), { type: 5 });
  const hook = await webhook(mixed);
  await call("POST", `${hook}?wait=true`, { content: "first", flags: 64 });
  const second = await call("POST", `${hook}?wait=true`, { content: "second", flags: 64 });
  expect(second.status).toBe(200);
  expect(mixed.responses.map(({ content, ephemeral }) => [content, ephemeral])).toEqual([
    ["first", false],
    ["second", true],
  ]);
  expect(guild.channel("bench").messages.map(({ content }) => content)).toEqual(["first"]);
});

test("before the acknowledgement there is no webhook; after 15 min its token is invalid", async () => {
  const { ana, call, callback, webhook, clock, discord } = await answering();
  const mixed = ana.slash("mix");
  const hook = await webhook(mixed);
  const early = await call("POST", hook, { content: "early" });
  expect([early.status, early.body.code]).toEqual([404, 10015]);
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual([
    "follow-up-before-acknowledgement",
  ]);
  await call("POST", await callback(mixed), say("one"));
  clock.advance(15 * 60_000 - 50);
  expect((await call("PATCH", `${hook}/messages/@original`, { content: "still" })).status).toBe(
    200,
  );
  clock.advance(100);
  for (const [method, path] of [
    ["PATCH", `${hook}/messages/@original`],
    ["POST", hook],
    ["DELETE", `${hook}/messages/@original`],
  ] as const) {
    const late = await call(method, path, method === "DELETE" ? undefined : { content: "late" });
    expect([late.status, late.body.code]).toEqual([401, 50027]);
  }
});

test("a response can be read, changed and taken back through the webhook", async () => {
  const { ana, call, callback, webhook } = await answering();
  const mixed = ana.slash("mix");
  await call("POST", await callback(mixed), say("one", { flags: 64 }));
  const hook = await webhook(mixed);
  expect((await call("GET", `${hook}/messages/@original`)).body.content).toBe("one");
  const other = await call("POST", hook, { content: "two" });
  await call("PATCH", `${hook}/messages/${other.body.id}`, { content: "three" });
  expect(mixed.responses.map(({ content }) => content)).toEqual(["one", "three"]);
  expect((await call("DELETE", `${hook}/messages/@original`)).status).toBe(204);
  const gone = await call("GET", `${hook}/messages/@original`);
  expect([gone.status, gone.body.code]).toEqual([404, 10008]);
});

test("what only one user sees, the bot's token does not reach", async () => {
  const { ana, bench, call, callback, wire } = await answering();
  const mixed = ana.slash("mix");
  const answer = await call(
    "POST",
    `${await callback(mixed)}?with_response=true`,
    say("one", { flags: 64 }),
  );
  const { id } = answer.body.resource.message;
  for (const [method, body] of [
    ["PATCH", { content: "x" }],
    ["DELETE", undefined],
    ["GET", undefined],
  ] as const) {
    const tried = await call(method, `${bench}/messages/${id}`, body);
    expect([method, tried.status, tried.body.code]).toEqual([method, 404, 10008]);
  }
  await call("POST", `${bench}/messages`, { content: "for all" });
  expect((await wire.dispatched("MESSAGE_CREATE")).d.content).toBe("for all");
});

test("a press updates the message it sits on, at once or later", async () => {
  const { ana, bench, call, callback, webhook, guild } = await answering();
  const row = { type: 1, components: [{ type: 2, style: 1, label: "in", custom_id: "in" }] };
  const { body } = await call("POST", `${bench}/messages`, { content: "press", components: [row] });
  const first = ana.press(body, "in");
  await call("POST", await callback(first), { type: 7, data: { content: "pressed" } });
  const second = ana.press(body, "in");
  await call("POST", await callback(second), { type: 6 });
  expect(second).toMatchObject({ acknowledged: true });
  await call("PATCH", `${await webhook(second)}/messages/@original`, { components: [] });
  expect(guild.channel("bench").messages).toMatchObject([
    { content: "pressed", buttons: [], edits: [{ content: "press" }, { content: "pressed" }] },
  ]);
});

// Interactions, "Autocomplete": 25 choices.
test("26 choices are refused, 25 are shown", async () => {
  const { ana, call, callback } = await answering();
  const choices = Array.from({ length: 26 }, (_, i) => ({ name: `c${i}`, value: `v${i}` }));
  const typed = ana.autocomplete("mix", { option: "bottle", typed: "c" });
  const path = await callback(typed);
  const refused = await call("POST", path, { type: 8, data: { choices } });
  expect(formCodes(refused.body.errors)).toEqual(["data.choices: BASE_TYPE_BAD_LENGTH"]);
  expect((await call("POST", path, { type: 8, data: { choices: choices.slice(1) } })).status).toBe(
    204,
  );
  expect(typed.choices).toHaveLength(25);
});

const label = (more: object, outer: object = {}): object => ({
  type: 18,
  label: "Name",
  component: { type: 4, custom_id: "name", style: 1, ...more },
  ...outer,
});

// Interactions, "Modal"; Component reference, "Label" and "Text Input".
test.each<[string, object, string]>([
  ["a title of 46", { title: "x".repeat(46) }, "data.title: BASE_TYPE_MAX_LENGTH"],
  ["a custom id of 101", { custom_id: "x".repeat(101) }, "data.custom_id: BASE_TYPE_MAX_LENGTH"],
  ["no fields", { components: [] }, "data.components: BASE_TYPE_BAD_LENGTH"],
  [
    "six fields",
    { components: [1, 2, 3, 4, 5, 6].map((n) => label({ custom_id: `n${n}` })) },
    "data.components: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "one custom id twice",
    { components: [label({}), label({})] },
    "data.components: COMPONENT_CUSTOM_ID_DUPLICATED",
  ],
  [
    "a label of 46",
    { components: [label({}, { label: "x".repeat(46) })] },
    "data.components.0.label: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a description of 101",
    { components: [label({}, { description: "x".repeat(101) })] },
    "data.components.0.description: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a placeholder of 101",
    { components: [label({ placeholder: "x".repeat(101) })] },
    "data.components.0.component.placeholder: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "room for 4001 characters",
    { components: [label({ max_length: 4001 })] },
    "data.components.0.component.max_length: NUMBER_TYPE_MAX",
  ],
  [
    "a value longer than its room",
    { components: [label({ max_length: 3, value: "four" })] },
    "data.components.0.component.value: BASE_TYPE_BAD_LENGTH",
  ],
])("a form with %s is refused", async (_, more, code) => {
  const { ana, call, callback } = await answering();
  const mixed = ana.slash("mix");
  const data = { custom_id: "form", title: "Teach", components: [label({})], ...more };
  const { status, body } = await call("POST", await callback(mixed), { type: 9, data });
  expect([status, body.code]).toEqual([400, 50035]);
  expect(formCodes(body.errors)).toContain(code);
  expect(mixed.modal).toBeUndefined();
});

test("a form comes back filled, and a form answers no form", async () => {
  const { ana, call, callback, wire } = await answering();
  const mixed = ana.slash("mix");
  const fields = [
    label({ min_length: 2, max_length: 5 }),
    label({ custom_id: "note", required: false, style: 2 }, { label: "Note" }),
  ];
  const data = { custom_id: "form", title: "Teach", components: fields };
  await call("POST", await callback(mixed), { type: 9, data });
  const form = mixed.modal;
  if (form === undefined) throw new Error("no form");
  expect(() => ana.submits(form, {})).toThrow("Name is required");
  expect(() => ana.submits(form, { Name: "a" })).toThrow("too short");
  expect(() => ana.submits(form, { Name: "abcdef" })).toThrow("too long");
  expect(() => ana.submits(form, { Name: "abc", Other: "x" })).toThrow("no field Other");
  const sent = ana.submits(form, { Name: "tea" });
  const { d } = await wire.until((frame) => frame.d?.id === sent.id);
  expect(d.data).toEqual({
    custom_id: "form",
    components: [
      { type: 18, id: 1, component: { type: 4, id: 1, custom_id: "name", value: "tea" } },
      { type: 18, id: 1, component: { type: 4, id: 1, custom_id: "note", value: "" } },
    ],
  });
  const again = await call("POST", await callback(sent), { type: 9, data });
  expect(formCodes(again.body.errors)).toEqual(["type: BASE_TYPE_CHOICES"]);
});
