import type { Country } from "../units/conversions.ts";
import type { Celsius, CelsiusDifference, Grams, Millilitres, Seconds } from "../units/quantity.ts";
import { plain, showDuration, showMass, showTemperature, showVolumeFor } from "../units/show.ts";
import type { Answers, BathAnswers } from "./answers.ts";
import { answerTo, type Question, questionsOf } from "./questions.ts";

const measureWords = {
  metric: "millilitres",
  us: "US ounces",
  imperial: "Imperial ounces",
} as const;

/** The answers as numbered lines, to be compared with the paper one by one. */
export function showAnswers(answers: Answers): readonly string[] {
  const country = answers.measure === "metric" ? undefined : answers.measure;
  return questionsOf(answers).map((question, index) => {
    return `${index + 1}. ${labelOf(question)}: ${showAnswer(question, answerTo(answers, question), country)}`;
  });
}

/** What a line is called: a key of the store is no word. */
export function labelOf({ bath, word }: Question): string {
  const label = word === "keepsPart" ? "keeps part full" : word;
  return bath === undefined ? label : `${bath} ${label}`;
}

const counted = (count: number, noun: string): string =>
  `${plain(count, 1)} ${noun}${count === 1 ? "" : "s"}`;

/** One answer in words; "not on the sheet" where it was left out. */
export function showAnswer(
  question: Question,
  answer: unknown,
  country: Country | undefined,
): string {
  if (answer === null) return "not on the sheet";
  if (answer === undefined) return "not asked yet";
  switch (question.wants) {
    case "name":
    case "process":
      return String(answer);
    case "measure":
      return measureWords[answer as keyof typeof measureWords];
    case "baths":
      return (answer as NonNullable<Answers["baths"]>).map(({ name }) => name).join(", ");
    case "volume":
      return showVolumeFor(answer as Millilitres, country);
    case "warmth":
      return showTemperature(answer as Celsius);
    case "parts":
      return (answer as NonNullable<BathAnswers["parts"]>)
        .map(({ name, form, amount }) => {
          const much =
            amount === undefined
              ? "all of it"
              : "ml" in amount
                ? showVolumeFor(amount.ml as Millilitres, country)
                : showMass(amount.g as Grams);
          return `${name} ${much}, ${form}`;
        })
        .join("; ");
    case "time": {
      const { time, sense } = answer as { time: Seconds; sense: string };
      return `${sense === "exact" ? "exactly" : "at least"} ${showDuration(time)}`;
    }
    case "temperature": {
      const { temperature, tolerance, told } = answer as {
        temperature: Celsius;
        tolerance?: CelsiusDifference;
        told?: string;
      };
      const band = tolerance === undefined ? "" : ` ±${plain(tolerance, 2)} °C`;
      return `${showTemperature(temperature)}${band}${told === undefined ? "" : `, told as ${told}`}`;
    }
    case "agitation": {
      const { initial, every, each } = answer as {
        initial: Seconds;
        every?: Seconds;
        each?: Seconds;
      };
      return every === undefined
        ? `first ${showDuration(initial)}`
        : `first ${showDuration(initial)}, then ${showDuration(each ?? initial)} every ${showDuration(every)}`;
    }
    case "count":
      return counted(answer as number, "roll");
    case "keeps":
      return counted(answer as number, "day");
    case "reuse":
      return showReuse(answer as NonNullable<BathAnswers["reuse"]>);
    case "rows":
      return answer === "done" ? "a row means done so far" : "a row means this one";
    case "push":
      return showPushAnswer(answer as NonNullable<BathAnswers["push"]>);
    case "times":
      return showTimes(answer as NonNullable<BathAnswers["times"]>);
    case "yes":
      return answer === true ? "yes" : "no";
  }
}

function showReuse(reuse: NonNullable<BathAnswers["reuse"]>): string {
  switch (reuse.kind) {
    case "percent":
      return `${plain(reuse.percent, 2)} % per roll, ${reuse.compounded ? "each on top of the last" : "each of the first time"}`;
    case "seconds":
      return `${plain(reuse.seconds, 1)} s per ${reuse.per === "unit" ? "roll" : "tank"}`;
    case "table":
      return `table ${showRows(reuse.rows)}`;
    case "replenish":
      return `replenisher, ${plain(reuse.ml, 1)} mL per roll; the time stays`;
  }
}

function showPushAnswer(push: NonNullable<BathAnswers["push"]>): string {
  switch (push.kind) {
    case "seconds":
      return `${plain(push.seconds, 1)} s per stop`;
    case "factor":
      return `times ${plain(push.factor, 3)} for each stop`;
    case "table":
      return `table ${showRows(push.rows)}`;
  }
}

function showTimes(law: NonNullable<BathAnswers["times"]>): string {
  switch (law.kind) {
    case "table":
      return `table ${law.rows.map(({ at, time }) => `${plain(at, 1)} °C ${showDuration(time)}`).join(", ")}`;
    case "q10":
      return `factor ${plain(law.q10, 3)} for 10 °C`;
    case "k7":
      return `factor ${plain(law.k7, 3)} for 7 °C`;
  }
}

const showRows = (rows: readonly { readonly at: number; readonly time: Seconds }[]): string =>
  rows.map(({ at, time }) => `${plain(at, 2)} ${showDuration(time)}`).join(", ");
