import { SlashCommandBuilder, type SlashCommandSubcommandBuilder } from "discord.js";
import type {
  APIApplicationCommandBasicOption,
  APIApplicationCommandOption,
  RESTPostAPIChatInputApplicationCommandsJSONBody,
} from "discord-api-types/v10";
import fc from "fast-check";
import { expect, test } from "vitest";
import { z } from "zod";
import { commands as registration } from "../../../../test/discord/stand-in/limits/commands.ts";
import { type Command, defineCommand, topics } from "../../../commands/define-command.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { answer } from "../../../reply/reply.ts";
import { definitionsHash, slashDefinitions } from "./slash-definitions.ts";
import { fieldWords } from "./slash-field-words.ts";
import { placeOf, slashPlaces } from "./slash-layout.ts";

type Definition = RESTPostAPIChatInputApplicationCommandsJSONBody;
const commands = await loadCommands();

/**
 * Discord's limits, from its developer documentation (Application Commands), from memory. The
 * builders of discord.js 14.28.1 hold names, descriptions and counts against them independently.
 */
const NAME = /^[-_'\p{Ll}\p{Lm}\p{Lo}\p{N}]{1,32}$/u;

function sizeOf(one: Definition | APIApplicationCommandOption): number {
  const inner = "options" in one ? (one.options ?? []) : [];
  const choices = "choices" in one ? (one.choices ?? []) : [];
  return (
    one.name.length +
    (one.description?.length ?? 0) +
    inner.reduce((sum, option) => sum + sizeOf(option), 0) +
    choices.reduce((sum, { name, value }) => sum + name.length + String(value).length, 0)
  );
}

function checkOption(option: APIApplicationCommandOption): void {
  expect(option.name).toMatch(NAME);
  expect(option.description.length).toBeGreaterThan(0);
  expect(option.description.length).toBeLessThanOrEqual(100);
  const inner = "options" in option ? (option.options ?? []) : [];
  checkOptions(inner);
  const choices = "choices" in option ? (option.choices ?? []) : [];
  expect(choices.length).toBeLessThanOrEqual(25);
  for (const { name, value } of choices) {
    expect(name.length).toBeGreaterThan(0);
    expect(name.length).toBeLessThanOrEqual(100);
    expect(String(value).length).toBeLessThanOrEqual(100);
  }
  if ("autocomplete" in option && option.autocomplete) expect(choices).toEqual([]);
  if ("max_length" in option) expect(option.max_length).toBeLessThanOrEqual(6000);
}

function checkOptions(options: readonly APIApplicationCommandOption[]): void {
  expect(options.length).toBeLessThanOrEqual(25);
  expect(new Set(options.map(({ name }) => name)).size).toBe(options.length);
  const required = options.map((option) => option.required === true);
  expect(required).toEqual(required.toSorted((a, b) => Number(b) - Number(a)));
  for (const option of options) checkOption(option);
}

function checkAll(definitions: readonly Definition[]): void {
  expect(definitions.length).toBeLessThanOrEqual(100);
  expect(new Set(definitions.map(({ name }) => name)).size).toBe(definitions.length);
  for (const definition of definitions) {
    expect(definition.name).toMatch(NAME);
    expect(definition.description.length).toBeGreaterThan(0);
    expect(definition.description.length).toBeLessThanOrEqual(100);
    expect(sizeOf(definition)).toBeLessThanOrEqual(8000);
    checkOptions(definition.options ?? []);
  }
}

/** The same command made by the builders of discord.js, which throw where a limit is broken. */
function built({ name, description, options = [] }: Definition): unknown {
  const command = new SlashCommandBuilder().setName(name).setDescription(description);
  for (const option of options) {
    if (option.type !== 1) {
      addOption(command, option as APIApplicationCommandBasicOption);
      continue;
    }
    command.addSubcommand((sub) => {
      sub.setName(option.name).setDescription(option.description);
      for (const inner of option.options ?? []) addOption(sub, inner);
      return sub;
    });
  }
  return command.toJSON();
}

function addOption(
  to: SlashCommandBuilder | SlashCommandSubcommandBuilder,
  option: APIApplicationCommandBasicOption,
): void {
  const { name, description, required = false } = option;
  switch (option.type) {
    case 3:
      to.addStringOption((made) => {
        made.setName(name).setDescription(description).setRequired(required);
        if (option.choices !== undefined) made.addChoices(...option.choices);
        if (option.max_length !== undefined) made.setMaxLength(option.max_length);
        return option.autocomplete === true ? made.setAutocomplete(true) : made;
      });
      break;
    case 4:
      to.addIntegerOption((made) => {
        if (option.min_value !== undefined) made.setMinValue(option.min_value);
        if (option.max_value !== undefined) made.setMaxValue(option.max_value);
        return made.setName(name).setDescription(description).setRequired(required);
      });
      break;
    case 5:
      to.addBooleanOption((made) =>
        made.setName(name).setDescription(description).setRequired(required),
      );
      break;
    case 10:
      to.addNumberOption((made) => {
        if (option.min_value !== undefined) made.setMinValue(option.min_value);
        if (option.max_value !== undefined) made.setMaxValue(option.max_value);
        return made.setName(name).setDescription(description).setRequired(required);
      });
      break;
    default:
      throw new Error(`no option of type ${option.type} is made here`);
  }
}

const definitions = slashDefinitions(commands);

test("all commands are within every limit", () => {
  checkAll(definitions);
  expect(registration.safeParse(JSON.parse(JSON.stringify(definitions))).error).toBeUndefined();
});

test.each(definitions.map((definition) => [definition.name, definition] as const))(
  "/%s is one the builders of discord.js make too",
  (_, definition) => {
    const { contexts, integration_types, ...rest } = definition;
    expect(built(definition)).toMatchObject(JSON.parse(JSON.stringify(rest)));
  },
);

test.each(commands.map(({ name }) => [name]))("%s has one place", (name) => {
  const places = slashPlaces(commands).filter(({ command }) => command.name === name);
  expect(places).toHaveLength(1);
  const place = placeOf(commands, name);
  const definition = definitions.find((one) => one.name === place?.name);
  const inside = definition?.options?.map((option) => option.name) ?? [];
  if (place?.sub !== undefined) expect(inside).toContain(place.sub);
  else expect(definition).toBeDefined();
});

test("words for wet hands and first aid stand alone", () => {
  const names = definitions.map(({ name }) => name);
  for (const word of ["in", "out", "next", "again", "hold", "left", "start", "temperature"]) {
    expect(names).toContain(word);
  }
  for (const word of ["mix", "trouble", "help", "emergency", "say"]) expect(names).toContain(word);
});

test("the list is the same for the same commands, in whatever order they are given", () => {
  const again = slashDefinitions([...commands].reverse());
  expect(again).toEqual(definitions);
  expect(definitionsHash(again)).toBe(definitionsHash(definitions));
});

test("one word more in a summary is another list", () => {
  const changed = commands.map((command, index) =>
    index === 0 ? { ...command, summary: `${command.summary} Really.` } : command,
  );
  expect(definitionsHash(slashDefinitions(changed))).not.toBe(definitionsHash(definitions));
});

test("what an option is for is told of fields there are", () => {
  const known = commands.flatMap(({ name, fields }) =>
    Object.keys(fields.shape).map((field) => `${name}.${field}`),
  );
  expect(Object.keys(fieldWords).filter((key) => !known.includes(key))).toEqual([]);
});

/** Commands nobody has written yet: long names and summaries, many fields, crowded topics. */
const invented = fc
  .uniqueArray(
    fc.record({
      name: fc.stringMatching(/^[a-z]{3,12}( [a-z]{2,12}){0,2}$/),
      summary: fc.string({ minLength: 1, maxLength: 300 }).map((text) => `A ${text}`),
      topic: fc.constantFrom(...topics),
      fields: fc.subarray(["volume", "bottle", "temperature", "count", "text", "yes", "fill"], {
        minLength: 1,
      }),
      question: fc.string({ maxLength: 200 }),
    }),
    { selector: ({ name }) => name.replaceAll(" ", "-").slice(0, 32), maxLength: 150 },
  )
  .map((specs) =>
    specs.map(({ name, summary, topic, fields, question }) =>
      defineCommand({
        name: `x ${name}`,
        summary,
        topic,
        sentences: fields.map((field) => `${name} {${field}}`),
        examples: [],
        fields: z.object(
          Object.fromEntries(
            fields.map((field, index) => [
              field,
              index === 0
                ? z.string(`Q${question}`)
                : field === "count"
                  ? z.number().int().min(1).max(9).optional()
                  : z.string().optional(),
            ]),
          ),
        ),
        changes: false,
        values: {},
        run: () => answer({ title: "Heard.", say: "Heard." }),
      }),
    ),
  );

test("commands nobody has written yet fit as well, each in one place", () => {
  const law = fc.property(invented, (more: readonly Command[]) => {
    const all = [...commands, ...more];
    checkAll(slashDefinitions(all));
    const places = slashPlaces(all).map(({ name, sub }) => `${name} ${sub ?? ""}`);
    expect(new Set(places).size).toBe(all.length);
  });
  fc.assert(law, { numRuns: 30 });
});
