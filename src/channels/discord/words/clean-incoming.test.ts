import fc from "fast-check";
import { expect, test } from "vitest";
import { cleanIncoming } from "./clean-incoming.ts";

const BOT = "100000000000000001";
const cleaned = (text: string): string | undefined => {
  const heard = cleanIncoming(text, BOT);
  return "text" in heard ? heard.text : undefined;
};

test.each([
  { what: "a plain sentence", text: "start developer", is: "start developer" },
  { what: "the bot called first", text: `<@${BOT}> in`, is: "in" },
  { what: "the bot called by its nickname, twice", text: `<@!${BOT}>, <@${BOT}>: in`, is: "in" },
  {
    what: "the bot named later on",
    text: `note ask <@${BOT}> later`,
    is: `note ask <@${BOT}> later`,
  },
  {
    what: "somebody else in front",
    text: "<@200000000000000002> in",
    is: "<@200000000000000002> in",
  },
  { what: "lines", text: "mix a quart\r\nof\tdeveloper\n", is: "mix a quart of developer" },
  { what: "text turned round", text: "note \u202Eevil\u202C \u2066x\u2069", is: "note evil x" },
  { what: "a word with nothing in it", text: "i\u200Bn\uFEFF \u2060now\u00AD", is: "in now" },
  { what: "letters that show nothing", text: "in\u3164\u2800now", is: "in now" },
  { what: "a control character", text: "in\u0000\u0007", is: "in" },
  { what: "a mention put together from pieces", text: `<@\u200B${BOT}> in`, is: "in" },
  { what: "only the bot's name", text: `<@${BOT}>`, is: "" },
  { what: "half a picture", text: "in \uD83D", is: "in" },
])("$what", ({ text, is }) => {
  expect(cleaned(text)).toBe(is);
});

test("no more than three marks stay on one letter", () => {
  expect(cleaned(`Z${"\u0335".repeat(50)}orro`)).toBe(`Z${"\u0335".repeat(3)}orro`);
  expect(cleaned("Tiếng Việt, שָׁלוֹם")).toBe("Tiếng Việt, שָׁלוֹם".normalize("NFC"));
});

test.each([2001, 4000, 100_000])("%d characters are refused", (length) => {
  const heard = cleanIncoming("a".repeat(length), BOT);
  expect(heard).toMatchObject({ refusal: { kind: "refusal", facts: { reason: "too-long" } } });
});

test("2,000 characters are heard", () => {
  expect(cleaned("a".repeat(2000))).toHaveLength(2000);
});

const anything = fc.oneof(
  fc.string({ unit: "binary", maxLength: 300 }),
  fc.string({ unit: "grapheme", maxLength: 300 }),
  fc
    .array(
      fc.constantFrom(
        `<@${BOT}>`,
        "<@!",
        BOT,
        ">",
        ",",
        " ",
        "\u202E",
        "\u0335",
        "in",
        "\uD800",
        "e",
        "\u0301",
        "\n",
        "\uFB2C",
      ),
      { maxLength: 60 },
    )
    .map((pieces) => pieces.join("")),
);

test("never throws, and what is clean stays as it is", () => {
  const law = fc.property(anything, (text) => {
    const once = cleaned(text);
    if (once === undefined) return;
    expect(cleaned(once)).toBe(once);
    expect(once).not.toMatch(/[\p{Cf}\p{Cc}\p{Zl}\p{Zp}]|\p{M}{4}/u);
    expect(once.startsWith(`<@${BOT}>`)).toBe(false);
  });
  fc.assert(law, { numRuns: 500 });
});
