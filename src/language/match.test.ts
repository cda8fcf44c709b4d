import fc from "fast-check";
import { expect, test } from "vitest";
import { quietBench } from "../../test/support/reading.ts";
import { matchTemplate, type SlotReading } from "./match.ts";
import { readers, takenAsTyped } from "./readers/all.ts";
import { parseTemplate } from "./template.ts";
import { toWords } from "./words.ts";

const names = ["volume", "bath", "count", "text", "newName", "duration", "temperature"] as const;
const slots: Readonly<Record<string, SlotReading>> = Object.fromEntries(
  names.map((name) => [name, { read: readers[name], asTyped: takenAsTyped.has(name) }]),
);

function match(template: string, sentence: string, own = slots) {
  const words = toWords(sentence);
  return matchTemplate(parseTemplate(template), own, words, new Set(words.words), quietBench);
}

const fields = (template: string, sentence: string): unknown => match(template, sentence)?.fields;

test.each([
  { template: "mix {volume} [of] {bath}", said: "mix 500 ml of blix", reads: [500, "blix"] },
  { template: "mix {volume} [of] {bath}", said: "Mix 500ml blix, please!", reads: [500, "blix"] },
  { template: "mix {volume} [of] {bath}", said: "mix 500 ml", reads: undefined },
  { template: "mix {volume} [of] {bath}", said: "mix 500 ml blix tomorrow", reads: undefined },
  { template: "mix {volume} [of] {bath}", said: "blix mix 500 ml", reads: undefined },
])("$said by $template: $reads", ({ template, said, reads }) => {
  const found = match(template, said)?.fields;
  expect(found && [found.volume, found.bath]).toEqual(reads);
});

test.each([
  "start {bath} <for {duration} / at {temperature}>",
  "start {bath} <at {temperature} / for {duration}>",
])("what stands in any order is read in every order: %s", (template) => {
  const both = { bath: "blix", duration: 390, temperature: 38 };
  expect(fields(template, "start blix for 6:30 at 38 c")).toEqual(both);
  expect(fields(template, "start blix at 38 c for 6:30")).toEqual(both);
  expect(fields(template, "start blix at 38 c")).toEqual({ bath: "blix", temperature: 38 });
  expect(fields(template, "start blix")).toEqual({ bath: "blix" });
  expect(fields(template, "start blix for 6:30 for 6:30")).toBeUndefined();
});

test("words that mean nothing may stand before, between and behind", () => {
  expect(fields("stop [run]", "please just stop the run now")).toEqual({});
  expect(fields("stop [run]", "stop all the runs")).toBeUndefined();
  expect(fields("start {bath} [for {duration}]", "start developer for just 3:15")).toEqual({
    bath: "developer",
    duration: 195,
  });
});

test("free text is taken as it was typed, whatever its case and signs", () => {
  expect(fields("note {text}", "note Second roll: loaded WET")).toEqual({
    text: "Second roll: loaded WET",
  });
  expect(fields("note {text}", "note the lid")).toEqual({ text: "the lid" });
});

test("a slot takes its longest reading first and gives back what the rest needs", () => {
  expect(fields("call {newName} [now]", "call Big Acorn")).toEqual({ newName: "Big Acorn" });
  expect(fields("call {newName} tank", "call Big tank")).toEqual({ newName: "Big" });
  expect(fields("{text} in {text}", "A in")).toBeUndefined();
});

test("own words and words of free text are counted, to choose between templates", () => {
  expect(match("note {text}", "note the lid leaks")).toMatchObject({ literals: 1, loose: 3 });
  expect(match("[the] tank [is] full", "the tank is full")).toMatchObject({
    literals: 4,
    loose: 0,
  });
});

test("a slot without a reader matches nothing", () => {
  expect(match("mix {volume}", "mix 500 ml", {})).toBeUndefined();
});

test("every word of a sentence is used or there is no match", () => {
  const word = fc.constantFrom(
    ..."mix start 500 ml blix developer the of for 3:15 at 38 c tank north two rolls and".split(
      " ",
    ),
  );
  const whole = fc.property(fc.array(word, { minLength: 1, maxLength: 8 }), (words) => {
    const found = match("mix {volume} [of] {bath} [for {duration}]", words.join(" "));
    if (found === undefined) return;
    expect(words[0]).not.toBe("start");
    expect(words).toContain("mix");
    expect(words).not.toContain("tank");
  });
  fc.assert(whole);
});

/** The same readers, counting how often they are asked. */
function counting(): { readonly slots: typeof slots; readonly asked: () => number } {
  let asked = 0;
  const counted = Object.entries(slots).map(([name, slot]): [string, SlotReading] => [
    name,
    {
      ...slot,
      read(words, from, listening) {
        asked += 1;
        return slot.read(words, from, listening);
      },
    },
  ]);
  return { slots: Object.fromEntries(counted), asked: () => asked };
}

test.each([
  { template: "{text} {text} {text} {text} x", said: "a ".repeat(200) },
  { template: "<{text} / {text} / {text} / {text}> x", said: "a ".repeat(60) },
  { template: "[a] [a] [a] [a] [a] [a] [a] [a] [a] [a] x", said: "a ".repeat(30) },
  { template: "{count} {count} {count} {count} x", said: "a hundred and ".repeat(50) },
])("a sentence made to be slow is given up: $template", ({ template, said }) => {
  const { slots: own, asked } = counting();
  expect(match(template, `${said}y x y`, own)).toBeUndefined();
  expect(asked()).toBeLessThan(25_000);
});
