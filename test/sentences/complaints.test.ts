import { describe, expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { understand } from "../support/understand.ts";

// How people put it: common usage, no source; several are the words of the accounts in
// data/faults/sources.json put shortly.

const commands = await loadCommands();

type Given = Readonly<Record<string, string>>;

const said: readonly (readonly [sentence: string, symptom: string, given?: Given])[] = [
  ["the negatives are thin", "thin"],
  ["my negatives look thin and pale", "thin"],
  ["all my negs came out too thin", "thin"],
  ["the film looks underdeveloped", "thin"],
  ["thin negatives", "thin"],
  ["the negatives look awfully thin", "thin"],
  ["everything is too dense and contrasty", "dense"],
  ["everything came out pretty flat", "flat"],
  ["there are tide marks on the film", "drop-marks"],
  ["negatives thin, edge numbers faint", "thin", { numbers: "faint" }],
  ["the negatives are thin but the edge numbers are crisp", "thin", { numbers: "crisp" }],
  ["the pictures are too light and the edge numbers are faint too", "thin", { numbers: "faint" }],
  ["why are my negatives so thin?", "thin"],
  ["the film is blank", "blank"],
  ["blank with edge numbers", "blank", { numbers: "crisp" }],
  ["blank without edge numbers", "blank", { numbers: "missing" }],
  ["my film came out completely blank, no edge numbers", "blank", { numbers: "missing" }],
  ["the film came out blank but the numbers are there", "blank", { numbers: "crisp" }],
  ["there is nothing on the film, not even edge numbers", "blank", { numbers: "missing" }],
  ["the negatives are completely clear", "blank"],
  ["no images on the film", "blank"],
  ["the negatives are very dark", "dense"],
  ["the negatives are too dense", "dense"],
  ["my film is overdeveloped", "dense"],
  ["negatives are too contrasty", "dense"],
  ["the pictures look flat", "flat"],
  ["low contrast", "flat"],
  ["green shadows and magenta highlights", "crossed"],
  ["the film has a different cast in shadows and highlights", "crossed"],
  ["there is a green cast", "cast"],
  ["the colours are off", "cast"],
  ["the negatives are muddy", "muddy"],
  ["the film is dark and grainy", "muddy"],
  ["film is milky", "milky"],
  ["the film is cloudy/milky", "milky"],
  ["the film looks cloudy after drying", "milky"],
  ["there are milky patches on the film", "milky"],
  ["yellow stains", "yellow-stain"],
  ["the negatives have turned yellow", "yellow-stain"],
  ["brown stains", "brown-stain"],
  ["there are brown spots on my negatives", "brown-stain"],
  ["the base is purple", "pink-tint"],
  ["my negatives have a pink tint", "pink-tint"],
  ["uneven cyan, worse at the start", "uneven-cast", { place: "one end or edge" }],
  ["the film is fogged", "fogged"],
  ["fog over the edges", "fogged", { over: "over the edges" }],
  ["fog but the edges are clear", "fogged", { over: "inside the picture" }],
  ["light leaks in the same place on every frame", "fogged", { place: "same place" }],
  ["the roll is completely black", "fogged"],
  ["the images are partly positive", "part-positive"],
  ["small clear spots on the film", "clear-spots"],
  ["clear round spots at the top edge", "clear-spots", { place: "one end or edge" }],
  ["purple streaks on the edge of each frame", "streaks", { place: "same place" }],
  ["streaks from the sprocket holes", "streaks", { place: "at the holes" }],
  ["surge marks", "streaks"],
  ["the film is patchy", "streaks"],
  ["an undeveloped band along one edge", "band", { place: "one end or edge" }],
  ["the film is only half developed", "band"],
  ["black specks all over", "dark-specks", { place: "anywhere" }],
  ["drying marks", "drop-marks"],
  ["water spots on the negatives", "drop-marks"],
  ["there are teardrop marks on my film", "drop-marks"],
  ["a chalky deposit", "deposit"],
  ["white residue, it wipes off", "deposit", { wipes: "yes" }],
  ["reticulation", "net"],
  ["the emulsion looks like a spider web", "net"],
  ["the emulsion is peeling off", "frilling"],
  ["half moon marks here and there", "creases", { place: "anywhere" }],
  ["fine lines along the film", "scratches"],
  ["fingerprints on the negatives", "fingerprints"],
  ["black smears on the film", "black-residue"],
  ["the colours are fading", "fading"],
  ["only one roll looks different, the others are fine", "one-odd", { extent: "one roll" }],
  ["each batch is worse", "drift"],
  ["the film is scratched", "scratches"],
  ["bromide drag", "streaks"],
  ["spots all over my negatives", "spots"],
  ["both rolls are milky", "milky", { extent: "all of them" }],
  ["it came out blank", "blank"],
  ["everything came out purple", "pink-tint"],
  ["weird colors", "cast"],
  ["the scans are green", "cast"],
  ["half the roll is undeveloped", "band"],
  ["the highlights are blocked", "dense"],
  ["the shadows are empty", "thin"],
  ["the film edges are dark", "fogged"],
  ["pinholes", "clear-spots"],
  ["how do I fix milky film?", "milky"],
  ["can milky film be rescued", "milky"],
  ["what does a purple tint mean", "pink-tint"],
  ["why did my film turn out blank?", "blank"],
  ["the numbers on the edge are missing and the film is blank", "blank", { numbers: "missing" }],
];

test("the phrasings are many and name every symptom", () => {
  expect(said.length).toBeGreaterThanOrEqual(60);
  expect(new Set(said.map(([, symptom]) => symptom)).size).toBeGreaterThanOrEqual(28);
});

const rows = said.map(([sentence, symptom, given = {}]) => ({ sentence, symptom, given }));

test.each(rows)("$sentence: $symptom", ({ sentence, symptom, given }) => {
  const heard = understand(sentence, commands);
  expect(heard.command).toBe("diagnose");
  const seen = (heard.fields.complaint ?? heard.fields.seen) as {
    symptoms: readonly string[];
    given: Given;
  };
  expect(seen.symptoms[0]).toBe(symptom);
  expect(seen.given).toEqual(given);
});

test("what the film is for is heard with it", () => {
  const process = (said: string) =>
    (understand(said, commands).fields.complaint as { process?: string } | undefined)?.process;
  expect(process("my black and white film has yellow stains")).toBe("black-and-white");
  expect(process("the c-41 negatives are muddy")).toBe("C-41");
  expect(process("yellow stains")).toBeUndefined();
});

test("two faults in one sentence are both heard, the first in front", () => {
  const { fields } = understand("the negatives are thin and fogged", commands);
  expect(fields.complaint).toEqual({ symptoms: ["thin", "fogged"], given: {} });
});

describe("what is no complaint about film", () => {
  test.each([
    "my developer is brown",
    "Acorn looks cloudy",
    "the blix is milky",
    "there are crystals in Acorn",
    "cloudy",
    "thin",
    "it is dark outside",
    "the weather is cloudy and flat",
    "clear the table",
    "clear",
    "dark",
    "light got in",
    "my hair is thin",
    "the negatives are in the drawer",
    "hang the negatives to dry",
    "add a roll of film",
    "the film was great",
    "stop the film",
    "picture of my cat",
    "temperature 38",
    "streaks of luck",
    "milk in the film of my tea",
    "film is expensive",
    "the numbers are crisp",
    "one roll",
    "all of them",
  ])("%s", (sentence) => {
    expect(understand(sentence, commands).command).not.toBe("diagnose");
  });
});

test.each([
  "what went wrong",
  "what happened to my film",
  "something is wrong with my negatives",
  "the film looks weird",
  "what is wrong with the film",
])("%s: asks what is seen", (sentence) => {
  const heard = understand(sentence, commands);
  expect(heard.command).toBe("diagnose");
  expect(heard.fields).toEqual({});
});

describe("words of the bench that stay what they were", () => {
  test.each([
    ["Acorn looks cloudy", "looks"],
    ["light got in", "trouble"],
    ["clear", "clear"],
    ["dark", "dark"],
    ["it was 37.1 C 10 seconds ago", "temperature"],
    ["Acorn is suspect", "suspect"],
    ["something went wrong", "trouble"],
    ["that was wrong", "undo"],
  ])("%s: %s", (sentence, command) => {
    expect(understand(sentence, commands).command).toBe(command);
  });
});
