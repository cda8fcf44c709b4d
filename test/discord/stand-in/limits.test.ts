import { expect, test } from "vitest";
import { formCodes, setUp } from "./support/set-up.ts";

const text = (length: number): string => "x".repeat(length);
const button = (index: number, more: object = {}): object => ({
  type: 2,
  style: 1,
  label: `b${index}`,
  custom_id: `id-${index}`,
  ...more,
});
const row = (...components: object[]): object => ({ type: 1, components });
const buttons = (count: number): object[] => Array.from({ length: count }, (_, i) => button(i));
const option = (index: number): object => ({ label: `o${index}`, value: `v${index}` });
const select = (count: number, more: object = {}): object => ({
  type: 3,
  custom_id: "select",
  options: Array.from({ length: count }, (_, i) => option(i)),
  ...more,
});
const field = { name: "n", value: "v" };

/** Sources: Message resource ("Create Message", "Embed Limits", "Allowed Mentions"); Components. */
const refused: [string, object, string][] = [
  ["2001 characters", { content: text(2001) }, "content: BASE_TYPE_MAX_LENGTH"],
  ["eleven embeds", { embeds: Array(11).fill({ title: "t" }) }, "embeds: BASE_TYPE_BAD_LENGTH"],
  ["a title of 257", { embeds: [{ title: text(257) }] }, "embeds.0.title: BASE_TYPE_MAX_LENGTH"],
  [
    "a description of 4097",
    { embeds: [{ description: text(4097) }] },
    "embeds.0.description: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a footer of 2049",
    { embeds: [{ footer: { text: text(2049) } }] },
    "embeds.0.footer.text: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "an embed author of 257",
    { embeds: [{ author: { name: text(257) } }] },
    "embeds.0.author.name: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "26 fields",
    { embeds: [{ fields: Array(26).fill(field) }] },
    "embeds.0.fields: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "a field name of 257",
    { embeds: [{ fields: [{ name: text(257), value: "v" }] }] },
    "embeds.0.fields.0.name: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a field value of 1025",
    { embeds: [{ fields: [{ name: "n", value: text(1025) }] }] },
    "embeds.0.fields.0.value: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "6001 characters of embeds together",
    { embeds: [{ description: text(4000) }, { description: text(2001) }] },
    "embeds: MAX_EMBED_SIZE_EXCEEDED",
  ],
  [
    "six buttons in a row",
    { content: "c", components: [row(...buttons(6))] },
    "components.0.components: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "six rows",
    { content: "c", components: buttons(6).map((one) => row(one)) },
    "components: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "the same custom id twice",
    { content: "c", components: [row(button(1)), row(button(1))] },
    "components: COMPONENT_CUSTOM_ID_DUPLICATED",
  ],
  [
    "a custom id of 101",
    { content: "c", components: [row(button(1, { custom_id: text(101) }))] },
    "components.0.components.0.custom_id: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a button without a custom id",
    { content: "c", components: [row(button(1, { custom_id: undefined }))] },
    "components.0.components.0.custom_id: BUTTON_COMPONENT_CUSTOM_ID_REQUIRED",
  ],
  [
    "a button without a label",
    { content: "c", components: [row(button(1, { label: "" }))] },
    "components.0.components.0.label: BUTTON_COMPONENT_INVALID_LABEL",
  ],
  [
    "a label of 81",
    { content: "c", components: [row(button(1, { label: text(81) }))] },
    "components.0.components.0.label: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a link with a custom id",
    { content: "c", components: [row(button(1, { style: 5, url: "https://example.invalid" }))] },
    "components.0.components.0.custom_id: BUTTON_COMPONENT_CUSTOM_ID_URL_MUTUALLY_EXCLUSIVE",
  ],
  [
    "26 options to choose from",
    { content: "c", components: [row(select(26))] },
    "components.0.components.0.options: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "two selects in a row",
    { content: "c", components: [row(select(2), select(2, { custom_id: "other" }))] },
    "components.0.components: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "all users and some users allowed to be rung",
    { content: "c", allowed_mentions: { parse: ["users"], users: ["123456789012345678"] } },
    "allowed_mentions.users: MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE",
  ],
  [
    "101 users allowed to be rung",
    { content: "c", allowed_mentions: { users: Array(101).fill("123456789012345678") } },
    "allowed_mentions.users: BASE_TYPE_BAD_LENGTH",
  ],
  ["a nonce of 26", { content: "c", nonce: text(26) }, "nonce: BASE_TYPE_MAX_LENGTH"],
  ["a flag one may not set", { content: "c", flags: 2 }, "flags: BITFIELD_INVALID"],
  [
    "for one user only, outside an interaction",
    { content: "c", flags: 64 },
    "flags: BITFIELD_INVALID",
  ],
];

test.each(refused)("a message with %s is refused", async (_, body, code) => {
  const { call, bench, discord, guild } = await setUp();
  const { status, body: answer } = await call("POST", `${bench}/messages`, body);
  expect(status).toBe(400);
  expect(answer).toMatchObject({ code: 50035, message: "Invalid Form Body" });
  expect(formCodes(answer.errors)).toContain(code);
  expect(guild.channel("bench").messages).toEqual([]);
  expect(discord.takeViolations().map(({ kind }) => kind)).toContain("invalid-form");
});

test.each([
  ["2000 characters", { content: text(2000) }],
  ["ten embeds of 6000 in all", { embeds: Array(10).fill({ description: text(600) }) }],
  [
    "25 fields, names and values at their longest within 6000",
    { embeds: [{ fields: Array(25).fill({ name: text(100), value: text(140) }) }] },
  ],
  [
    "five rows of five buttons",
    {
      content: "c",
      components: [0, 1, 2, 3, 4].map((r) => row(...[0, 1, 2, 3, 4].map((b) => button(r * 5 + b)))),
    },
  ],
  ["custom ids of 100", { content: "c", components: [row(button(1, { custom_id: text(100) }))] }],
  ["25 options to choose from", { content: "c", components: [row(select(25))] }],
  ["buttons alone", { components: [row(button(1))] }],
  ["nobody to be rung", { content: "c", allowed_mentions: { parse: [] } }],
  ["no link previews, and silent", { content: "c", flags: 4 | 4096 }],
])("a message with %s is taken", async (_, body) => {
  const { call, bench, discord } = await setUp();
  expect((await call("POST", `${bench}/messages`, body)).status).toBe(200);
  expect(discord.violations).toEqual([]);
});

// Create Message: one of content, embeds, components, files and so on; code 50006 of the list.
test.each([{}, { content: "" }, { content: "  " }, { embeds: [], components: [] }])(
  "an empty message is refused: %j",
  async (body) => {
    const { call, bench } = await setUp();
    const { status, body: answer } = await call("POST", `${bench}/messages`, body);
    expect([status, answer.code]).toEqual([400, 50006]);
  },
);

test("a field nobody knows is a violation, at the top and deep inside", async () => {
  const { call, bench, discord } = await setUp();
  await call("POST", `${bench}/messages`, { content: "c", contents: "d" });
  await call("POST", `${bench}/messages`, { embeds: [{ titel: "t", title: "t" }] });
  const details = discord
    .takeViolations()
    .flatMap(({ kind, detail }) => (kind === "unknown-field" ? [detail] : []));
  expect(details).toEqual([
    "POST /channels/:channel/messages: contents",
    "POST /channels/:channel/messages: embeds.0.titel",
  ]);
});

test("broken JSON is refused", async () => {
  const { call, bench } = await setUp();
  const { status, body } = await call("POST", `${bench}/messages`, "{");
  expect([status, body.code]).toEqual([400, 50109]);
});

const upload = (sizes: readonly number[], payload: object): FormData => {
  const form = new FormData();
  form.set("payload_json", JSON.stringify(payload));
  sizes.forEach((size, index) => {
    form.set(`files[${index}]`, new Blob([new Uint8Array(size)], { type: "image/png" }), "a.png");
  });
  return form;
};

// API reference, "Uploading Files": 10 MiB in all; code 40005 of the list.
test("files up to 10 MiB in all are taken, one byte more is not", async () => {
  const { call, bench, guild } = await setUp();
  const half = 5 * 1024 * 1024;
  expect((await call("POST", `${bench}/messages`, upload([half, half], {}))).status).toBe(200);
  const more = await call("POST", `${bench}/messages`, upload([half, half + 1], {}));
  expect([more.status, more.body.code]).toEqual([413, 40005]);
  expect(guild.channel("bench").messages).toHaveLength(1);
  expect(guild.channel("bench").messages[0]?.attachments).toHaveLength(2);
});

test("eleven files are too many", async () => {
  const { call, bench } = await setUp();
  const { status, body } = await call("POST", `${bench}/messages`, upload(Array(11).fill(1), {}));
  expect([status, body.code]).toEqual([400, 30015]);
});

test("files take names and descriptions from the form, and are fetched where it says", async () => {
  const { call, bench } = await setUp();
  const form = upload([3], {
    attachments: [{ id: 0, filename: "plan.png", description: "the plan" }],
  });
  const { body } = await call("POST", `${bench}/messages`, form);
  expect(body.attachments).toMatchObject([
    { filename: "plan.png", description: "the plan", size: 3, content_type: "image/png" },
  ]);
  const fetched = await fetch(body.attachments[0].url);
  expect((await fetched.arrayBuffer()).byteLength).toBe(3);
  const kept = await call("PATCH", `${bench}/messages/${body.id}`, {
    content: "with",
    attachments: [{ id: body.attachments[0].id }],
  });
  expect(kept.body.attachments).toHaveLength(1);
  const gone = await call("PATCH", `${bench}/messages/${body.id}`, { attachments: [] });
  expect(gone.body.attachments).toHaveLength(0);
});
