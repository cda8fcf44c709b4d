import { expect, test } from "vitest";
import type { SpeechPart } from "./check-speech.ts";
import { examineSpeech } from "./examine-speech.ts";

const part = (name: string, there: boolean, get: string): SpeechPart => ({
  part: name,
  there,
  without: `${name} is lost`,
  get,
});

test("all there is good, in one line", () => {
  expect(examineSpeech([part("ears", true, "a"), part("mouth", true, "b")])).toEqual({
    kind: "good",
    what: "voice",
    says: "everything to hear and to speak with is there",
  });
});

test("what is missing is named with what is lost, and with one command that adds it all", () => {
  const { kind, says } = examineSpeech([
    part("ears", false, "get a"),
    part("mouth", false, "get a"),
    part("Opus", false, "get b"),
  ]);
  expect(kind).toBe("note");
  expect(says).toContain("missing: ears (ears is lost), mouth (mouth is lost), Opus");
  expect(says).toMatch(/This adds it: get a && get b$/);
});
