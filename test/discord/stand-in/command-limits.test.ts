import { expect, test } from "vitest";
import { formCodes, setUp } from "./support/set-up.ts";

const text = (length: number): string => "x".repeat(length);
const command = (more: object = {}): object => ({ name: "mix", description: "Mix", ...more });
const option = (more: object = {}): object => ({
  type: 3,
  name: "bottle",
  description: "b",
  ...more,
});
const sub = (index: number, more: object = {}): object => ({
  type: 1,
  name: `s${index}`,
  description: "s",
  ...more,
});
const many = (count: number, make: (index: number) => object): object[] =>
  Array.from({ length: count }, (_, index) => make(index));
const heavy = (length: number): object =>
  command({
    options: many(25, (index) =>
      option({
        name: `o${index}`,
        description: text(100),
        choices: many(3, (c) => ({ name: `${c}${text(60)}`, value: text(length) })),
      }),
    ),
  });

/** Source: Application Commands ("Naming", "Option Structure", "Registering a Command"). */
test.each<[string, object[], string]>([
  ["a name in capitals", [command({ name: "Mix" })], "0.name: APPLICATION_COMMAND_INVALID_NAME"],
  ["a name with a space", [command({ name: "mix it" })], "0.name: STRING_TYPE_REGEX"],
  ["a name of 33", [command({ name: text(33) })], "0.name: BASE_TYPE_MAX_LENGTH"],
  ["no description", [command({ description: "" })], "0.description: BASE_TYPE_BAD_LENGTH"],
  [
    "a description of 101",
    [command({ description: text(101) })],
    "0.description: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "26 options",
    [command({ options: many(26, (i) => option({ name: `o${i}` })) })],
    "0.options: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "26 subcommands",
    [command({ options: many(26, (i) => sub(i)) })],
    "0.options: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "26 choices",
    [
      command({
        options: [option({ choices: many(26, (i) => ({ name: `c${i}`, value: `${i}` })) })],
      }),
    ],
    "0.options.0.choices: BASE_TYPE_BAD_LENGTH",
  ],
  [
    "a choice named in 101",
    [command({ options: [option({ choices: [{ name: text(101), value: "v" }] })] })],
    "0.options.0.choices.0.name: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a choice worth 101",
    [command({ options: [option({ choices: [{ name: "c", value: text(101) }] })] })],
    "0.options.0.choices.0.value: BASE_TYPE_MAX_LENGTH",
  ],
  [
    "a number where the option takes text",
    [command({ options: [option({ choices: [{ name: "c", value: 5 }] })] })],
    "0.options.0.choices.0.value: BASE_TYPE_CONVERT",
  ],
  [
    "choices with autocomplete",
    [command({ options: [option({ autocomplete: true, choices: [{ name: "c", value: "v" }] })] })],
    "0.options.0.autocomplete: APPLICATION_COMMAND_AUTOCOMPLETE_CHOICES",
  ],
  [
    "a required option after a free one",
    [command({ options: [option(), option({ name: "other", required: true })] })],
    "0.options.1: APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID",
  ],
  [
    "two options of one name",
    [command({ options: [option(), option()] })],
    "0.options.1: APPLICATION_COMMAND_OPTIONS_NAME_NON_UNIQUE",
  ],
  [
    "a subcommand beside a value",
    [command({ options: [sub(1), option()] })],
    "0.options: APPLICATION_COMMAND_OPTIONS_TYPE_INVALID",
  ],
  ["two commands of one name", [command(), command()], "1: APPLICATION_COMMANDS_DUPLICATE_NAME"],
  ["8001 characters and more", [heavy(100)], "0: APPLICATION_COMMAND_TOO_LARGE"],
  ["101 commands", many(101, (i) => command({ name: `m${i}` })), ": BASE_TYPE_BAD_LENGTH"],
])("commands with %s are refused", async (_, body, code) => {
  const { call, app } = await setUp();
  const answer = await call("PUT", `/applications/${app.id}/commands`, body);
  expect([answer.status, answer.body.code]).toEqual([400, 50035]);
  expect(formCodes(answer.body.errors)).toContain(code);
  expect(app.commands()).toEqual([]);
  expect(app.registrations).toEqual([]);
});

test("100 commands of 25 subcommands are taken; a name kept keeps its id", async () => {
  const { call, app } = await setUp();
  const path = `/applications/${app.id}/commands`;
  const first = await call("PUT", path, [command(), command({ name: "run" })]);
  const full = many(100, (i) =>
    command({ name: i === 0 ? "mix" : `m${i}`, options: many(25, (s) => sub(s)) }),
  );
  const second = await call("PUT", path, full);
  expect(second.status).toBe(200);
  expect(second.body).toHaveLength(100);
  expect(second.body[0].id).toBe(first.body[0].id);
  expect(second.body[0].version).not.toBe(first.body[0].version);
  expect(app.registrations.map(({ scope, count }) => [scope, count])).toEqual([
    ["global", 2],
    ["global", 100],
  ]);
  expect((await call("GET", path)).body).toHaveLength(100);
});

test("a guild has its own commands, another application's are not ours", async () => {
  const { call, app, guild } = await setUp();
  const path = `/applications/${app.id}/guilds/${guild.id}/commands`;
  expect((await call("PUT", path, [command()])).body[0].guild_id).toBe(guild.id);
  expect(app.commands()).toEqual([]);
  expect(app.commands(guild.id)).toHaveLength(1);
  const foreign = await call("PUT", "/applications/123456789012345678/commands", []);
  expect([foreign.status, foreign.body.code]).toEqual([403, 20012]);
});

// "There is a global rate limit of 200 application command creates per day, per guild."
test("201 new commands in a day are too many; the next day there is room again", async () => {
  const { call, app, clock } = await setUp();
  const path = `/applications/${app.id}/commands`;
  const fresh = (tag: string, count: number): object[] =>
    many(count, (i) => command({ name: `${tag}${i}` }));
  expect((await call("PUT", path, fresh("a", 100))).status).toBe(200);
  expect((await call("PUT", path, fresh("b", 100))).status).toBe(200);
  const more = await call("PUT", path, fresh("c", 1));
  expect([more.status, more.body.code]).toEqual([429, 30034]);
  clock.advance(24 * 3_600_000 + 1000);
  expect((await call("PUT", path, fresh("c", 1))).status).toBe(200);
});
