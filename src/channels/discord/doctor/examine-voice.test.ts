import { expect, test } from "vitest";
import { examineVoice } from "./examine-voice.ts";
import { showFindings } from "./finding.ts";

test("what is missing for calls is a note with the one command that adds it", () => {
  expect(examineVoice([]).kind).toBe("good");
  const lacks = examineVoice(["@discordjs/voice"]);
  expect(lacks.kind).toBe("note");
  expect(showFindings([lacks])).toContain("@discordjs/voice is missing");
  expect(lacks.says).toMatch(/npm run add-voice$/);
});
