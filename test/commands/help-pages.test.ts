import { expect, test } from "vitest";
import { topics } from "../../src/commands/define-command.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { evening } from "../support/runs.ts";

const commands = await loadCommands();
const record = newRecord("t", "Europe/Lisbon");
const say = (text: string): string =>
  turn(record, { text, who: "Ines" }, evening, commands).reply.say;

/** Every word help may be asked about: commands, topics, and whatever stands in their sentences. */
const words = new Set([
  ...topics,
  ...commands.map(({ name }) => name),
  ...commands.flatMap(({ sentences }) => sentences.flatMap(({ text }) => text.split(/[^a-z]+/))),
]);

test("help on any word is said in one breath of 12 words", () => {
  expect(words.size).toBeGreaterThan(300);
  const asked = [...words].filter((word) => word !== "").map((word) => `help me ${word}`);
  const long = [...asked, "help", "help me with", "help values", "help xyzzy"].filter(
    (text) => say(text).split(/\s+/).length > 12,
  );
  expect(long).toEqual([]);
});

test("help names an example of the command that can be said in one breath", () => {
  expect(say("help me with")).toMatch(/^Say, for example: .+\.$/);
});
