import { expect, test } from "vitest";
import { checkSpeech, speechCommands } from "./check-speech.ts";

test("a model that is not there is named with the one command that brings it", () => {
  const model = checkSpeech("/no/such/model").find(({ part }) => part.includes("model"));
  expect(model).toMatchObject({ there: false, get: expect.stringContaining("pocketsphinx-en-us") });
  expect(speechCommands([{ part: "a", there: false, without: "", get: "get it" }])).toEqual([
    "get it",
  ]);
  const both = ["a", "b"].map((part) => ({ part, there: false, without: "", get: "get it" }));
  expect(speechCommands(both)).toEqual(["get it"]);
  expect(speechCommands(both.map((one) => ({ ...one, there: true })))).toEqual([]);
});

test("what npm brings is found", () => {
  const found = checkSpeech()
    .filter(({ there }) => there)
    .map(({ part }) => part);
  expect(found).toEqual(expect.arrayContaining(["binding to C (koffi)", "Opus (opusscript)"]));
});
