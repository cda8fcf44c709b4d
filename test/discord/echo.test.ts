import { parse } from "discord-markdown-parser";
import { expect, test } from "vitest";
import { type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, type Club, openBenchAt } from "./support/club.ts";

/** What people may call themselves and their things, so that a careless bot rings or formats. */
const spoilt = [
  "@everyone",
  "@here now",
  "<@100000000000000001>",
  "<@&100000000000000001>",
  "<#100000000000000001>",
  "`code`",
  "```block",
  "[press](https://example.org)",
  "# heading",
  "> quote",
  "||hidden||",
  "**bold** _thin_ ~~gone~~",
  "<t:0:R>",
  "https://example.org/invite",
  "a\u202Eb\u200Bc",
];

/** What is left where nothing of theirs is markup: ours is bold, small print and times. */
const PLAIN: ReadonlySet<string> = new Set([
  ...["text", "br", "newline", "twemoji", "emoticon"],
  ...["strong", "subtext", "timestamp"],
]);

/** Every node of a message as Discord's markup reads it (an independent parser). */
const nodesOf = (text: string): string[] => {
  const kinds: string[] = [];
  const walk = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    if ("type" in value && typeof value.type === "string") kinds.push(value.type);
    Object.values(value).forEach(walk);
  };
  walk(parse(text, "extended"));
  return kinds;
};

/** What can be called so at a bench is, and said to it, and asked for again. */
async function sayAll(scene: Scene, club: Club, name: string): Promise<void> {
  const lines = [
    `add a roll of 120 marked C-41 called ${name}`,
    `remind me in 1 minute to ${name}`,
    `start blix for 1 minute one roll of 120 tank ${name}`,
    `note ${name}`,
    "left",
    "rolls",
    name,
  ];
  for (const line of lines) {
    await ask(scene, club.ines, line);
    await scene.pass(1);
  }
  club.rui.says(BENCH, `note ${name}`);
  await scene.pass(100);
  await ask(scene, club.ines, "summary");
}

test.each([0, 1, 2])(
  "whatever they are called, nobody is rung and nothing is formatted by it (%#)",
  (part) =>
    withScene(async (scene) => {
      const names = spoilt.filter((_, index) => index % 3 === part);
      const club = await openBenchAt(scene, { nick: names.join(""), messageContent: true });
      for (const name of names) await sayAll(scene, club, name);
      const said = club.posts.filter(({ author }) => author === "Bench bot");
      expect(said.length).toBeGreaterThan(30);
      for (const { content, pinged } of said) {
        expect(pinged.filter((one) => one !== "Ines")).toEqual([]);
        // The run's owner, called by us, is the one mention there may be.
        const theirs = content.replaceAll(`<@${club.ines.id}>`, "");
        const kinds = nodesOf(theirs).filter((kind) => !PLAIN.has(kind));
        expect({ content, kinds }).toEqual({ content, kinds: [] });
        expect(content).not.toMatch(/@everyone|@here|[\u202A-\u202E\u2066-\u2069]/);
      }
      expect(scene.standIn.violations).toEqual([]);
    }),
);
