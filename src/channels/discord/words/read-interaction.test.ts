import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sentences } from "../../../../test/sentences/sentences.ts";
import { evening } from "../../../../test/support/runs.ts";
import { busyBench, understand } from "../../../../test/support/understand.ts";
import type { Command } from "../../../commands/define-command.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { listeningOf } from "../../../conversation/listening.ts";
import { turn } from "../../../conversation/turn.ts";
import { asTyped, toWords } from "../../../language/words.ts";
import { readInteraction, type SlashData, type SlashOption } from "./read-interaction.ts";
import { type SlashField, slashFields } from "./slash-fields.ts";
import { placeOf } from "./slash-layout.ts";

const commands = await loadCommands();
const listening = listeningOf(busyBench.bench, evening);

/** What Discord would send for a command with these options filled in. */
function slash(name: string, options: readonly SlashOption[] = []): SlashData {
  const place = placeOf(commands, name);
  if (place === undefined) throw new Error(`no place for ${name}`);
  return place.sub === undefined
    ? { name: place.name, options }
    : { name: place.name, options: [{ name: place.sub, options }] };
}

const read = (data: SlashData) => readInteraction(data, commands, listening);

/** Numbers to a thousandth, as the table of sentences has them. */
const rounded = (value: unknown): unknown =>
  value === undefined
    ? undefined
    : JSON.parse(
        JSON.stringify(value, (_, inner) =>
          typeof inner === "number" ? Number(inner.toFixed(3)) : inner,
        ),
      );
const same = (one: unknown, other: unknown): boolean =>
  JSON.stringify(rounded(one)) === JSON.stringify(rounded(other));

/** The shortest stretch of the sentence that says this field by itself. */
function phraseFor(command: Command, said: string, field: SlashField, value: unknown) {
  const sentence = toWords(said);
  for (let length = 1; length <= sentence.words.length; length += 1) {
    for (let from = 0; from + length <= sentence.words.length; from += 1) {
      const typed = asTyped(sentence, from, from + length);
      const found = read(slash(command.name, [{ name: field.option, value: typed }]));
      if ("fields" in found && same(found.fields[field.field], value)) return typed;
    }
  }
  return undefined;
}

/** The fields of a sentence as options; undefined where one of them has none. */
function optionsFor(
  command: Command,
  said: string,
  fields: Readonly<Record<string, unknown>>,
): readonly SlashOption[] | undefined {
  const options: SlashOption[] = [];
  for (const [name, value] of Object.entries(fields)) {
    const field = slashFields(command).find((one) => one.field === name);
    if (field === undefined) return undefined;
    const filled =
      field.kind === "phrase"
        ? phraseFor(command, said, field, value)
        : (value as SlashOption["value"]);
    if (filled === undefined) return undefined;
    options.push({ name: field.option, value: filled });
  }
  return options;
}

const rows = Object.entries(sentences).flatMap(([name, said]) =>
  said.map(([words]) => {
    const heard = understand(words, commands);
    const command = commands.find((one) => one.name === name);
    const options = command && optionsFor(command, words, heard.fields);
    return { name, words, fields: heard.fields, options };
  }),
);
const expressible = rows.flatMap(({ options, ...row }) =>
  options === undefined ? [] : [{ ...row, options }],
);

test.each(expressible)("$words: the same by slash", ({ name, fields, options }) => {
  const found = read(slash(name, options));
  expect(found).toMatchObject({ command: name });
  expect(rounded("fields" in found ? found.fields : found)).toEqual(rounded(fields));
});

test("nearly all that can be said can be filled in", () => {
  const lost = rows.filter(({ options }) => options === undefined).map(({ words }) => words);
  expect(lost).toEqual([]);
});

describe("what cannot be read is said back", () => {
  const refusal = (data: SlashData) => {
    const found = read(data);
    return "refusal" in found ? found.refusal : undefined;
  };

  test("a volume that is none", () => {
    const data = slash("mix", [
      { name: "solution", value: "developer" },
      { name: "total", value: "a lot" },
    ]);
    expect(refusal(data)).toMatchObject({
      title: 'I read "a lot" for total. Give a volume, like 500 ml or a quart.',
      facts: { reason: "unreadable-option", field: "total", read: "a lot" },
    });
  });

  test("a volume with something behind it", () => {
    const data = slash("batch", [{ name: "total", value: "500 ml tomorrow" }]);
    expect(refusal(data)?.lines).toEqual(['"500 ml" I can read; "tomorrow" behind it I cannot.']);
  });

  test("a bottle that is not there, with the nearest that is", () => {
    const data = slash("retire", [{ name: "bottle", value: "akorn" }]);
    expect(refusal(data)?.lines).toEqual(["Nearest: acorn.", "Here: acorn, banjo."]);
  });

  test("a command that was taken away", () => {
    expect(refusal({ name: "gone", options: [] })?.facts.reason).toBe("not-understood");
    expect(refusal({ name: "bottle", options: [{ name: "gone" }] })?.facts.reason).toBe(
      "not-understood",
    );
  });
});

describe("in the conversation", () => {
  const who = "Ines";
  const ask = (data: SlashData) => {
    const found = read(data);
    if ("refusal" in found) throw new Error(found.refusal.title);
    return turn(busyBench, { who, ...found }, evening, commands);
  };

  test("a unit with two meanings is asked about, and the answer is kept", () => {
    const { country: _, ...bench } = busyBench.bench;
    const record = { ...busyBench, bench };
    const found = readInteraction(
      slash("batch", [
        { name: "solution", value: "developer" },
        { name: "total", value: "a quart" },
      ]),
      commands,
      listeningOf(bench, evening),
    );
    if ("refusal" in found) throw new Error(found.refusal.title);
    const asked = turn(record, { who, ...found }, evening, commands);
    expect(asked.reply.ask?.options?.map(({ word }) => word)).toEqual(["us", "imperial"]);
    const told = turn(asked.record, { who, text: "us" }, evening, commands);
    expect(told.reply.title).toContain("946 mL of developer");
    expect(told.record.bench.country).toBe("us");
  });

  test("a missing field is asked for, as in chat", () => {
    const { reply, record } = ask(slash("batch", [{ name: "solution", value: "developer" }]));
    expect(reply).toMatchObject({ kind: "question", ask: { command: "batch", slot: "total" } });
    expect(record.threads[who]?.pending?.ask.slot).toBe("total");
  });

  test("what it changes can be undone", () => {
    const note = slash("note", [{ name: "text", value: "lid was loose" }]);
    const { record } = ask(note);
    expect(record.undo).toHaveLength(1);
    expect(turn(record, { who, text: "undo" }, evening, commands).record.bench.notes).toEqual(
      busyBench.bench.notes,
    );
  });

  test.each([
    ["any sentence", { name: "say", options: [{ name: "sentence", value: "my eyes" }] }],
    ["a note", slash("note", [{ name: "text", value: "developer in my eyes" }])],
    ["an option that takes a volume", slash("batch", [{ name: "total", value: "eyes" }])],
    ["first aid itself", slash("emergency", [{ name: "kind", value: "eyes" }])],
  ])("first aid goes before %s", (_, data) => {
    expect(ask(data).reply.facts.kind).toBe("eyes");
  });

  test("a command that is not there is not understood, and nothing changes", () => {
    const message = { who, command: "no such thing", fields: { a: 1 } };
    const { reply, record } = turn(busyBench, message, evening, commands);
    expect(reply.facts.reason).toBe("not-understood");
    expect(record.bench).toBe(busyBench.bench);
  });

  test("too many words in it are refused", () => {
    const message = { who, command: "note", fields: { text: "a".repeat(1001) } };
    expect(turn(busyBench, message, evening, commands).reply.facts.reason).toBe("too-long");
  });
});

test("never throws, whatever is sent", () => {
  const value = fc.oneof(
    fc.string({ unit: "binary", maxLength: 80 }),
    fc.double(),
    fc.boolean(),
    fc.constantFrom("500 ml", "eyes", "acorn", "roll 3", "two 120"),
  );
  const anything = fc.constantFrom(...commands).chain((command) =>
    fc.record({
      command: fc.constant(command),
      values: fc.array(value, { maxLength: 5 }),
      strange: fc.string({ maxLength: 20 }),
    }),
  );
  const law = fc.property(anything, ({ command, values, strange }) => {
    const options = slashFields(command).map(({ option }, index) => ({
      name: option,
      value: values[index],
    }));
    const found = read(slash(command.name, [...options, { name: strange, value: strange }]));
    expect(["command", "text", "refusal"].some((key) => key in found)).toBe(true);
    if ("refusal" in found) return;
    expect(() => turn(busyBench, { who: "Ines", ...found }, evening, commands)).not.toThrow();
  });
  fc.assert(law, { numRuns: 400 });
});
