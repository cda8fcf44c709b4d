import { parse } from "discord-markdown-parser";
import fc from "fast-check";
import { expect, test } from "vitest";
import { cleanOutgoing } from "./clean-outgoing.ts";

/**
 * Checked with discord-markdown-parser 1.3.1 (Apache-2.0), a grammar of Discord's markup kept by
 * others. It has no lists: those follow Discord's own help page on markdown, from memory.
 */
const PLAIN: ReadonlySet<string> = new Set(["text", "br", "newline", "twemoji", "emoticon"]);

const markupIn = (text: string): readonly string[] =>
  parse(text, "extended")
    .map(({ type }) => type)
    .filter((type) => !PLAIN.has(type));

/** What a reader sees: the text of all nodes. */
const shown = (text: string): string =>
  parse(text, "extended")
    .map(({ type, content, name }) =>
      type === "br" || type === "newline" ? "\n" : String(content ?? name ?? ""),
    )
    .join("")
    .replaceAll("\u200B", "");

const tricks = [
  "**bold** and *slanted* and __under__ and _line_",
  "~~gone~~ ||hidden|| `code` ```\nblock\n```",
  "@everyone @here <@123456789012345678> <@!123456789012345678> <@&123456789012345678>",
  "<#123456789012345678> <:pic:123456789012345678> <a:pic:123456789012345678>",
  "<t:1764300000:R> <t:1764300000> <id:customize> </mix:123456789012345678>",
  "[a bottle](https://example.org/x) https://example.org/?a=1&b=2 <https://example.org>",
  "http://example.org steam://run/1 discord.gg/abcdef",
  "[a](https://e.org) [a\\](https://e.org) \\[a](https://e.org) [a [b] c](<https://e.org>)",
  "# heading",
  "## heading\n### heading\n-# small",
  "> quoted\n>>> quoted on\n  > quoted too",
  ":heart: :+1: :100:",
  "\\*already\\* \\\\*twice* \\",
  "\\<@123456789012345678> \\@everyone \\\\@everyone",
  "***three*** **__both__** |||||| ~~~~",
];

test.each(tricks.map((text) => [text]))("%j is only text", (text) => {
  expect(markupIn(text).length).toBeGreaterThanOrEqual(0);
  expect(markupIn(cleanOutgoing(text))).toEqual([]);
});

test("the grammar does see the markup that is taken away", () => {
  const seen = new Set(tricks.flatMap(markupIn));
  for (const type of ["strong", "em", "url", "user", "role", "channel", "emoji", "timestamp"]) {
    expect(seen).toContain(type);
  }
  for (const type of [
    "heading",
    "blockQuote",
    "spoiler",
    "link",
    "inlineCode",
    "everyone",
    "here",
  ]) {
    expect(seen).toContain(type);
  }
});

test.each([
  "946 mL of developer, quart outline",
  "start water  591 mL (20 US fl oz) at 48.9 °C (120 °F)",
  "19:30:30 pour developer: Acorn, the square, exactly 3:15 at 37.8 °C ±0.15; pour out 19:33:45",
  "38 - 1 = 37, 5 + 5, 1+9, 20% & more!",
  "Friday 4 December 2026, 20:00: order fixer",
  "| ACORN  (square)",
  "7 left [estimate: from memory] (see why)",
])("%j needs no change at all", (text) => {
  expect(cleanOutgoing(text)).toBe(text);
});

test.each([
  ["- item", "\\- item"],
  ["+ item", "\\+ item"],
  ["* item", "\\* item"],
  ["12. item", "12\\. item"],
  ["  3) item", "  3\\) item"],
  ["1.5 L", "1.5 L"],
  ["-5 °C", "-5 °C"],
])("%j stays a line", (line, clean) => {
  expect(cleanOutgoing(line)).toBe(clean);
});

const anything = fc.oneof(
  fc.string({ unit: "binary", maxLength: 200 }),
  fc.string({ unit: "grapheme-ascii", maxLength: 200 }),
  fc
    .array(
      fc.constantFrom(
        ..."*_~`|<>[]()#-+@:./\\ \n1aT",
        "@everyone",
        "@here",
        "<@123456789012345678>",
        "<t:1764300000:R>",
        "https://a.b/c",
        "discord.gg/",
        ":heart:",
        "<:a:123456789012345678>",
        "\u200B",
        "-# ",
      ),
      { maxLength: 40 },
    )
    .map((pieces) => pieces.join("")),
);

test("never throws, leaves no markup, and what is clean stays as it is", () => {
  const law = fc.property(anything, (text) => {
    const clean = cleanOutgoing(text);
    expect(markupIn(clean)).toEqual([]);
    expect(cleanOutgoing(clean)).toBe(clean);
    expect(clean).not.toMatch(/@(?!\u200B)/);
  });
  fc.assert(law, { numRuns: 2000 });
});

test("without a backslash in it, a text shows as it was written", () => {
  const words = fc
    .array(fc.constantFrom(..."*_~`|<>[]()#+@:./ 1aT", "https://a.b/c", ":heart:"), {
      maxLength: 40,
    })
    .map((pieces) => pieces.join("").trim().replace(/ +/g, " "));
  fc.assert(
    fc.property(words, (text) => {
      expect(shown(cleanOutgoing(text))).toBe(text);
    }),
    { numRuns: 1000 },
  );
});
