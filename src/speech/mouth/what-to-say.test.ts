import { expect, test } from "vitest";
import { answer, cue, question } from "../../reply/reply.ts";
import { whatToSay } from "./what-to-say.ts";

const left = answer({
  title: "North: developer, 2:56 left.",
  say: "Two fifty six.",
  lines: ["a", "b"],
});
const pour = cue({
  title: "North: pour out now.",
  say: "North: pour out now.",
  facts: { cue: "pour-out" },
});
const eyes = answer({ title: "Rinse.", say: "Rinse eyes now.", facts: { first_aid: true } });
const which = question({ command: "fill", fields: {}, slot: "fill" }, "How full is it?");

test("nothing is spoken in dark mode but first aid", () => {
  for (const reply of [left, pour, which]) expect(whatToSay(reply, "dark", "full")).toBeUndefined();
  expect(whatToSay(eyes, "dark", "cues")?.words).toBe("Rinse eyes now.");
});

test("cues only: cues, questions and first aid", () => {
  expect(whatToSay(left, "bench", "cues")).toBeUndefined();
  expect(whatToSay(pour, "bench", "cues")).toEqual({
    tone: "act",
    words: "North: pour out now.",
    cue: true,
  });
  expect(whatToSay(which, "wet", "cues")?.words).toBe("How full is it?");
});

test("short: one breath; full: the lines as well, but never of a cue", () => {
  expect(whatToSay(left, "bench", "short")?.words).toBe("Two fifty six.");
  expect(whatToSay(left, "bench", "full")?.words).toBe("Two fifty six. a. b");
  expect(whatToSay({ ...pour, lines: ["next: blix"] }, "bench", "full")?.words).toBe(pour.say);
});
