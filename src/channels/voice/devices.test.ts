import { expect, test } from "vitest";
import { microphone, speaker } from "./devices.ts";

const none = (): boolean => false;
const only = (there: string) => (program: string) => program === there;

test("what the settings name is taken, whatever else is there", () => {
  expect(microphone("my-mic --rate 16000", () => true)?.command).toEqual([
    "my-mic",
    "--rate",
    "16000",
  ]);
  expect(speaker("my-speaker", none)?.command).toEqual(["my-speaker"]);
});

test.each(["pw-record", "parec", "arecord"])("%s serves as the microphone", (tool) => {
  expect(microphone(undefined, only(tool))?.command[0]).toBe(tool);
  expect(microphone("  ", only(tool))?.form).toEqual({ rate: 16_000, channels: 1 });
});

test.each(["pw-play", "pacat", "aplay"])("%s serves as the speaker", (tool) => {
  expect(speaker(undefined, only(tool))?.command[0]).toBe(tool);
});

test("without any tool there is none", () => {
  expect(microphone(undefined, none)).toBeUndefined();
  expect(speaker(undefined, none)).toBeUndefined();
});
