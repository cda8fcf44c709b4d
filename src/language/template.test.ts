import { expect, test } from "vitest";
import { parseTemplate, wordsOf } from "./template.ts";

test("words, slots, choices, what may be left out, and what stands in any order", () => {
  const { node, slots } = parseTemplate("mix [up] (a|the) {volume} <of {bath} / in {vessel}>");
  expect(slots).toEqual(["volume", "bath", "vessel"]);
  expect(node).toEqual({
    kind: "sequence",
    nodes: [
      { kind: "word", word: "mix" },
      { kind: "maybe", node: { kind: "word", word: "up" } },
      {
        kind: "choice",
        nodes: [
          { kind: "word", word: "a" },
          { kind: "word", word: "the" },
        ],
      },
      { kind: "slot", slot: "volume" },
      {
        kind: "anyOrder",
        nodes: [
          {
            kind: "sequence",
            nodes: [
              { kind: "word", word: "of" },
              { kind: "slot", slot: "bath" },
            ],
          },
          {
            kind: "sequence",
            nodes: [
              { kind: "word", word: "in" },
              { kind: "slot", slot: "vessel" },
            ],
          },
        ],
      },
    ],
  });
});

test("a choice may be left out, and brackets nest", () => {
  expect(parseTemplate("[a|an]").node).toEqual({
    kind: "maybe",
    node: {
      kind: "choice",
      nodes: [
        { kind: "word", word: "a" },
        { kind: "word", word: "an" },
      ],
    },
  });
  expect(parseTemplate("go [to [the] tank]").node).toMatchObject({
    nodes: [{ word: "go" }, { kind: "maybe", node: { kind: "sequence" } }],
  });
});

test.each([
  { text: "start (developer", wrong: 'lacks ")"' },
  { text: "start [developer", wrong: 'lacks "]"' },
  { text: "start <a / b", wrong: 'lacks ">"' },
  { text: "start developer)", wrong: 'stray ")"' },
  { text: "start ]", wrong: 'stray "]"' },
  { text: "(a]", wrong: 'stray "]"' },
  { text: "a | b", wrong: 'stray "|"' },
  { text: "a / b", wrong: 'stray "/"' },
  { text: "mix {volume", wrong: "{volume" },
  { text: "mix volume}", wrong: "volume}" },
  { text: "mix {the volume}", wrong: "{the volume}" },
  { text: "mix {volume_2}", wrong: "{volume_2}" },
  { text: "mix {}", wrong: "{}" },
])("$text is refused at start", ({ text, wrong }) => {
  expect(() => parseTemplate(text)).toThrow(wrong);
  expect(() => parseTemplate(text)).toThrow(text);
});

test.each([
  { text: "how long [is] left", required: [["how"], ["long"], ["left"]] },
  { text: "(stop|abort) [the] run", required: [["stop", "abort"], ["run"]] },
  { text: "(left|how long)", required: [["left", "how"]] },
  { text: "(left|{tank} left)", required: [["left", "left"]] },
  { text: "({tank}|left)", required: [] },
  { text: "{solution} {volume}", required: [] },
  { text: "<in {tank} / for {film}>", required: [] },
])("without $required there is no use trying: $text", ({ text, required }) => {
  expect(parseTemplate(text).required).toEqual(required);
});

test("every word is known to the spelling of misheard ones, slots are not", () => {
  const { node } = parseTemplate("mix [up] (a|the) {volume} <of {bath} / in {vessel}>");
  expect(wordsOf(node)).toEqual(["mix", "up", "a", "the", "of", "in"]);
});
