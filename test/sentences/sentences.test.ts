import { performance } from "node:perf_hooks";
import { describe, expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { wordsOf } from "../../src/language/template.ts";
import { toWords } from "../../src/language/words.ts";
import { busyBench, understand } from "../support/understand.ts";
import { countryless, doubtful, nothings, sentences } from "./sentences.ts";

const commands = await loadCommands();

/** Numbers to a thousandth, so that the table need not spell out a quart. */
function rounded(value: unknown): unknown {
  if (typeof value === "number") return Number(value.toFixed(3));
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)]));
}

const all = Object.entries(sentences).flatMap(([command, said]) =>
  said.map(([words, fields = {}]) => ({ command, words, fields })),
);

test.each(all)("$words: $command", ({ command, words, fields }) => {
  const heard = understand(words, commands);
  expect({ command: heard.command, asks: heard.asks }).toEqual({ command, asks: undefined });
  expect(rounded(heard.fields)).toEqual(fields);
});

test.each(commands.map(({ name }) => [name]))("%s is said in three ways or more", (name) => {
  expect(sentences[name]?.length ?? 0).toBeGreaterThanOrEqual(3);
});

test("the table speaks of commands that exist", () => {
  const names = new Set(commands.map(({ name }) => name));
  expect(Object.keys(sentences).filter((name) => !names.has(name))).toEqual([]);
});

test.each(doubtful)("%s: %s asks about %s", (said, command, asks) => {
  expect(understand(said, commands)).toMatchObject({ command, asks });
});

test.each(countryless)("%s, without a country: %s asks about %s", (said, command, asks) => {
  const { country: _, ...bench } = busyBench.bench;
  const heard = understand(said, commands, { ...busyBench, bench });
  expect(heard).toMatchObject({ command, asks });
  expect(heard.reply.ask?.options?.map(({ word }) => word)).toEqual(["us", "imperial"]);
});

test.each(nothings.map((said) => [said]))("%s: nothing", (said) => {
  const { command, reply } = understand(said, commands);
  expect(command).toBeUndefined();
  expect(["refusal", "question"]).toContain(reply.kind);
});

test.each(commands.flatMap(({ name, examples }) => examples.map((said) => ({ name, said }))))(
  "the example of $name is understood: $said",
  ({ name, said }) => {
    expect(understand(said, commands).command).toBe(name);
  },
);

describe("what a sentence may look like", () => {
  const plain = "start developer two rolls tank south";
  const { fields } = understand(plain, commands);

  test.each([
    "START DEVELOPER TWO ROLLS TANK SOUTH",
    "  start   developer\ttwo rolls  tank south  ",
    "Start developer, two rolls, tank south.",
    "start developer two rolls tank south please",
    "please start the developer two rolls tank south now!",
    "“start developer two rolls tank south”",
    "start dev two rolls tank south",
    "start developer 2 rolls tank south",
    "start developer tank south two rolls",
    "start developer\u200b two rolls tank\u00a0south",
  ])("%j is the same", (said) => {
    const heard = understand(said, commands);
    const tank = String(heard.fields.tank).toLowerCase();
    expect({ ...heard.fields, tank }).toEqual(fields);
  });
});

test("no template waits for a word that no sentence can hold", () => {
  const lost = commands.flatMap(({ name, sentences: templates }) =>
    templates.flatMap(({ node }) =>
      wordsOf(node)
        // "temp" is spelt out before a template sees it, and "temperature" stands beside it.
        .filter((word) => word !== "temp" && toWords(word).words.join(" ") !== word)
        .map((word) => `${name}: ${word}`),
    ),
  );
  expect([...new Set(lost)]).toEqual([]);
});

test("nobody waits long for a sentence to be understood, not even for a hard one", () => {
  const hard = [
    "note ".repeat(200),
    "in ".repeat(330),
    "mix a hundred and ".repeat(55),
    "start developer for at with tank in north ".repeat(23),
    "the the the of of my our ".repeat(39),
    "swap instead of have says but have ".repeat(28),
    "5 % from 28 % to 2 % for 500 ml ".repeat(31),
    ...all.map(({ words }) => words),
    ...nothings,
  ];
  for (const said of hard) {
    const start = performance.now();
    understand(said.slice(0, 1000), commands);
    expect(performance.now() - start, said.slice(0, 60)).toBeLessThan(1000);
  }
});
