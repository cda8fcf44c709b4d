import { expect, test } from "vitest";
import { gardenAnswers, leftOut } from "../../../test/support/garden-sheet.ts";
import { millilitres } from "../units/quantity.ts";
import type { Answers } from "./answers.ts";
import { answerTo, nextQuestion, questionsOf } from "./questions.ts";

const ids = (answers: Answers) => questionsOf(answers).map(({ id }) => id);
const head = ["name", "process", "measure", "baths"];

test("before the baths are named there are four questions", () => {
  expect(ids({})).toEqual(head);
});

test("a mixed bath is asked for its mix, water only for its times", () => {
  const asked = ids(gardenAnswers);
  const mixed = "total water warm parts time temperature agitation capacity keeps".split(" ");
  const known = new Set([...head, ...mixed.map((word) => `1.${word}`)]);
  expect(asked.filter((id) => known.has(id))).toEqual([...known]);
  expect(asked.slice(0, 4)).toEqual(head);
  expect(asked.filter((id) => id.startsWith("2."))).toEqual([
    "2.time",
    "2.temperature",
    "2.agitation",
  ]);
});

test.each([
  { total: undefined, asks: ["1.total", "1.time", "1.temperature"] },
  { total: null, asks: ["1.total", "1.time", "1.temperature"] },
  { total: millilitres(1000), asks: ["1.total", "1.water", "1.warm"] },
])("a batch of $total is followed by $asks", ({ total, asks }) => {
  const developer = total === undefined ? {} : { total };
  const answers = { ...gardenAnswers, bath: { developer } };
  expect(ids(answers).slice(4, 7)).toEqual(asks);
});

test("the questions are asked in order, and a figure left out is an answer", () => {
  expect(nextQuestion({})?.id).toBe("name");
  expect(nextQuestion({ name: "garden", process: "C-41" })?.id).toBe("measure");
  const { developer } = gardenAnswers.bath ?? {};
  const { capacity: _, ...open } = developer ?? {};
  const answers = { ...gardenAnswers, bath: { ...gardenAnswers.bath, developer: open } };
  expect(nextQuestion(answers)?.id).toBe("1.capacity");
  const left = { ...gardenAnswers.bath, developer: { ...open, capacity: null } };
  expect(nextQuestion({ ...gardenAnswers, bath: left })?.id).not.toBe("1.capacity");
  expect(nextQuestion(leftOut(gardenAnswers))).toBeUndefined();
});

test("each question is about one bath, and an answer is found by it", () => {
  const answers = leftOut(gardenAnswers);
  const answered = questionsOf(answers).map((one) => answerTo(answers, one));
  expect(answered).not.toContain(undefined);
  expect(answered[0]).toBe("garden");
  expect(answered.at(-1)).toBeNull();
});

test.each([
  { measure: "metric", example: "1 litre" },
  { measure: "us", example: "32 ounces" },
  { measure: "imperial", example: "40 ounces" },
] as const)("a paper in $measure gets an example in its own measure", ({ measure, example }) => {
  const titles = questionsOf({ ...gardenAnswers, measure }).map(({ title }) => title);
  expect(titles.find((title) => title.includes("one batch make"))).toContain(example);
});

test("only a developer's time is not offered as a minimum", () => {
  const titles = questionsOf(gardenAnswers).map(({ title }) => title);
  expect(titles.filter((title) => title.includes("at least"))).toEqual([
    "wash: how long is film in it? Like 3:15, at least 6:30.",
  ]);
});

test("what may be left out says so", () => {
  for (const { title, optional } of questionsOf(gardenAnswers)) {
    expect(/\bskip\b/i.test(title)).toBe(optional);
  }
});
