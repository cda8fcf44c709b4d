import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { showOrigin } from "../../src/domain/origin.ts";
import { originsOf, valuesOf } from "../../src/reply/reply.ts";
import { eveningScript } from "../support/evening-script.ts";
import { playEvening } from "../support/play-evening.ts";

const commands = await loadCommands();
const heard = await playEvening(eveningScript, commands);

/** What went wrong, each with the words it answered, so that a failure can be read. */
const wrong = (isWrong: (one: (typeof heard)[number]) => unknown): readonly string[] =>
  heard.filter((one) => isWrong(one)).map(({ said, reply }) => `${said ?? "@"}: ${reply.title}`);

const words = (text: string) => text.split(/\s+/).filter((word) => word !== "");
const ofTheTalk = new Set(["reason", "field", "read", "heard", "nearest", "tanks"]);

test("the evening is long and passes through the commands", () => {
  expect(eveningScript.filter((line) => !line.startsWith("@")).length).toBeGreaterThan(140);
  expect(heard.length).toBeGreaterThan(250);
  const ran = new Set(heard.map(({ command }) => command));
  expect(commands.map(({ name }) => name).filter((name) => !ran.has(name))).toEqual([]);
  expect(new Set(heard.map(({ reply }) => reply.kind))).toEqual(
    new Set(["reply", "cue", "refusal", "question", "reminder"]),
  );
});

test("every reply can be said in one breath", () => {
  expect(wrong(({ reply }) => words(reply.say).length > 12)).toEqual([]);
  expect(wrong(({ reply }) => words(reply.say).length === 0)).toEqual([]);
});

test("no reply shows what a program calls nothing", () => {
  const nothing = /undefined|NaN|Infinity|\[object|[a-z]\.ts:\d/;
  expect(
    wrong(({ command, reply: { title, say, lines, cautions, working } }) =>
      [title, say, ...lines, ...cautions, ...working].some(
        // The help on `values` may speak of null: it explains the JSON.
        (text) => nothing.test(text) || (command !== "help" && /\bnull\b/.test(text)),
      ),
    ),
  ).toEqual([]);
});

test("titles begin and end like sentences or names", () => {
  expect(wrong(({ reply }) => !/^[\p{L}\d"(][\s\S]*[\p{L}\d.?!:)"%°]$/u.test(reply.title))).toEqual(
    [],
  );
  expect(wrong(({ reply }) => /\s{2}|\s[.,;:?!]|[.,;:]{2}|\.\?/.test(reply.title))).toEqual([]);
});

test("lines are single lines with something on them", () => {
  expect(
    wrong(({ reply: { lines, cautions } }) =>
      [...lines, ...cautions].some((line) => line.trim() === "" || /[\r\n]/.test(line)),
    ),
  ).toEqual([]);
});

test("every key of a command's values is in its list of keys", () => {
  const stray = heard.flatMap(({ said, command, reply }) => {
    const listed = commands.find(({ name }) => name === command)?.values;
    if (listed === undefined) return [];
    return Object.keys(valuesOf(reply))
      .filter((key) => !Object.hasOwn(listed, key))
      .filter((key) => reply.kind === "reply" || !ofTheTalk.has(key))
      .map((key) => `${said}: ${command}.${key}`);
  });
  expect(stray).toEqual([]);
});

test("every figure says where it comes from, and no figure is a bare infinity", () => {
  for (const { reply } of heard) {
    for (const [key, figure] of Object.entries(reply.figures)) {
      expect(showOrigin(figure.origin), key).toMatch(/\S/);
    }
    expect(Object.keys(originsOf(reply))).toEqual(Object.keys(reply.figures));
    expect(JSON.parse(JSON.stringify(valuesOf(reply)))).toEqual(valuesOf(reply));
  }
});

test("a figure's unit stands in its key, so a number of s, mL or °C is one", () => {
  const measured = /_(s|ml|g|c|in2|days)$/;
  for (const { said, reply } of heard) {
    for (const [key, { value }] of Object.entries(reply.figures)) {
      if (measured.test(key)) expect(typeof value, `${said}: ${key}`).toBe("number");
    }
  }
});

test("a refusal has a stable reason, a question waits for an answer, a cue names its tank", () => {
  for (const { said, reply } of heard) {
    if (reply.kind === "refusal") expect(reply.facts.reason).toMatch(/^[a-z]+(-[a-z]+)*$/);
    if (reply.kind === "question" && said !== undefined) expect(reply.ask).toBeDefined();
    if (reply.kind === "cue") expect(reply.title.startsWith(String(reply.facts.tank))).toBe(true);
  }
});

test("every reply says which kind of moment it is", () => {
  expect(wrong(({ reply }) => reply.clock === undefined)).toEqual([]);
});

test("an invented sheet says so with every plan and mix made by it", () => {
  const plans = heard.filter(
    ({ command, reply }) =>
      ["start", "mix", "batch"].includes(command ?? "") &&
      reply.kind === "reply" &&
      reply.facts.sheet === "saltmarsh demo",
  );
  expect(plans.length).toBeGreaterThan(3);
  for (const { reply } of plans) expect(reply.cautions.join(" ")).toContain("INVENTED");
});

test("the same evening again gives the same replies, word for word", async () => {
  expect(await playEvening(eveningScript, await loadCommands())).toEqual(heard);
});
