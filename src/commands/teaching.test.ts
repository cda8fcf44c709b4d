import { expect, test } from "vitest";
import { gardenAnswers } from "../../test/support/garden-sheet.ts";
import { quietBench } from "../../test/support/reading.ts";
import { newBench } from "../domain/session/bench.ts";
import type { Answers } from "../domain/teaching/answers.ts";
import { questionsOf } from "../domain/teaching/questions.ts";
import { takeAnswer } from "./teaching.ts";

/** What is said when this answers the question of that id; the garden sheet is invented. */
function say(id: string, text: string, answers: Answers = gardenAnswers) {
  const asked = questionsOf(answers).find((one) => one.id === id);
  if (asked === undefined) throw new Error(`no question ${id}`);
  const draft = { answers, by: "ana" };
  return takeAnswer({ ...newBench("bench", "UTC"), draft }, draft, asked, text, quietBench);
}

test.each([
  "what was the question",
  "uhh what was the question",
  "sorry what did you ask",
  "say that again please",
  "what?",
  "pardon",
  "hm",
])("%s: the question comes again and nothing is taken", (said) => {
  for (const { id, title } of questionsOf(gardenAnswers)) {
    const { bench, reply } = say(id, said);
    expect(bench).toBeUndefined();
    expect(reply.title).toContain(title.slice(1));
    expect(reply.ask).toMatchObject({ command: "learn", slot: "answer" });
  }
});

test("a printed range is read back as its middle, half the span, and as it was told", () => {
  expect(say("1.temperature", "35 to 40").reply.title).toContain(
    "Developer temperature: 37.5 °C (99.5 °F) ±2.5 °C, told as 35 to 40 °C.",
  );
  expect(say("1.temperature", "95 to 105 F").reply.title).toContain(
    "37.8 °C (100 °F) ±2.78 °C, told as 95 to 105 °F.",
  );
});

test("keeping full and part full is echoed whole, in words", () => {
  expect(say("1.keeps", "6 weeks full and 4 weeks half full").reply.title).toContain(
    "Developer keeps: 42 days full, 28 days part full.",
  );
});

test("no line of the read-back is called by a key of the store", () => {
  const developer = { ...gardenAnswers.bath?.developer, keepsPart: 28 };
  const answers = { ...gardenAnswers, bath: { ...gardenAnswers.bath, developer } };
  const { reply } = say("1.capacity", "8", answers);
  expect(reply.title).not.toMatch(/keepsPart/);
  expect(say("1.keepsPart", "3 weeks", answers).reply.title).toContain(
    "Developer keeps part full: 21 days.",
  );
});
