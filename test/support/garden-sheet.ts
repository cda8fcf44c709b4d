import type { Answers } from "../../src/domain/teaching/answers.ts";
import { nextQuestion } from "../../src/domain/teaching/questions.ts";
import {
  celsius,
  celsiusDifference,
  grams,
  millilitres,
  seconds,
} from "../../src/domain/units/quantity.ts";

/** Everything read off an invented paper: developer from three parts, and a wash. */
export const gardenAnswers: Answers = {
  name: "garden",
  process: "C-41",
  measure: "metric",
  baths: [
    { name: "developer", kind: "developer" },
    { name: "wash", kind: "wash" },
  ],
  bath: {
    developer: {
      total: millilitres(1000),
      water: millilitres(700),
      warm: celsius(43),
      parts: [
        { name: "A", form: "liquid", amount: { ml: millilitres(100) } },
        { name: "B", form: "liquid" },
        { name: "C", form: "powder", amount: { g: grams(12) } },
      ],
      time: { time: seconds(205), sense: "exact" },
      temperature: { temperature: celsius(38.2), tolerance: celsiusDifference(0.2) },
      agitation: { initial: seconds(30), every: seconds(30), each: seconds(5) },
      capacity: 8,
      keeps: 42,
    },
    wash: {
      time: { time: seconds(180), sense: "at least" },
      temperature: null,
      agitation: null,
    },
  },
};

/** The answers with "skip" said to every question that is still open. */
export function leftOut(answers: Answers): Answers {
  const open = nextQuestion(answers);
  if (open?.bath === undefined) return answers;
  const bath = { ...answers.bath?.[open.bath], [open.word]: null };
  return leftOut({ ...answers, bath: { ...answers.bath, [open.bath]: bath } });
}
