import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Draft } from "../domain/session/draft.ts";
import type { Answers } from "../domain/teaching/answers.ts";
import { checkBath } from "../domain/teaching/check-answer.ts";
import {
  answerTo,
  nextQuestion,
  type Question,
  questionsOf,
} from "../domain/teaching/questions.ts";
import { labelOf, showAnswer, showAnswers } from "../domain/teaching/show-answers.ts";
import type { Country } from "../domain/units/conversions.ts";
import type { Listening } from "../language/reader.ts";
import { type Ask, oneBreath, question, type Reply, refuse } from "../reply/reply.ts";
import { asksAgain } from "./answers/asks-again.ts";
import type { Outcome } from "./define-command.ts";
import { readAnswer } from "./read-answer.ts";

/** Keys of what a question of a sheet adds, for the commands that may ask it. */
export const askingValues = {
  asking: "id of the open question of a sheet that is being taught, right when all is answered",
  sheet: "name of that sheet",
} as const;

/** The question that is open: the next one without an answer, or whether all is right. */
export function askNext(draft: Draft, lead: string): Reply {
  const { answers } = draft;
  const open = nextQuestion(answers);
  const facts = { asking: open?.id ?? "right", sheet: answers.name ?? null };
  if (open !== undefined) {
    return question(askOf(open), lead === "" ? open.title : `${lead} ${open.title}`, {
      say: oneBreath(open.title),
      facts,
    });
  }
  const title =
    answers.from === undefined
      ? "This is what I have. Compare each line with the paper. Right?"
      : `It comes ${answers.from}; I have checked only that it can be. Compare each line with your own paper. Right?`;
  const invented = answers.invented === true ? ["INVENTED figures: never for real film."] : [];
  return question(whetherRight, answers.from === undefined ? title : `${lead} ${title}`.trim(), {
    lines: [...showAnswers(answers), "Say yes, or correct a line: change 7 to 650 ml."],
    cautions: invented,
    say: "Compare with the paper. Right? Or say change, line, figure.",
    facts,
  });
}

/** Free text comes first; a plain yes or no is chosen, since "no" alone means other things too. */
const askOf = ({ wants }: Question): Ask => {
  const ask = { command: "learn", fields: {}, slot: "answer" };
  if (wants !== "yes") return { ...ask, eager: true };
  return { ...ask, options: ["yes", "no", "skip"].map((word) => ({ word, value: word })) };
};

/** After a correction only the line that changed is said; "no" shows them all again. */
const askRight = (draft: Draft, changed: string): Reply =>
  question(whetherRight, `${changed} All right now?`, {
    lines: ["Say yes to store it, no to see every line, or correct another."],
    say: oneBreath(`${changed} All right now?`),
    facts: { asking: "right", sheet: draft.answers.name ?? null },
  });

const whetherRight: Ask = {
  command: "learn",
  fields: {},
  slot: "answer",
  eager: true,
  options: [
    { word: "yes", value: "yes" },
    { word: "no", value: "no" },
  ],
};

/** An answer taken into the draft, checked; or why it cannot be. The question stays open then. */
export function takeAnswer(
  bench: Bench,
  draft: Draft,
  asked: Question,
  text: string,
  listening: Listening,
): Outcome {
  if (asksAgain(text)) return { reply: askOnce(draft, asked) };
  const reading = readAnswer(asked, text, draft.answers, listening);
  if (!reading.ok) return { reply: stillAsking(reading.error, asked, "not-read") };
  const answers = store(draft.answers, asked, reading.value);
  const wrong =
    asked.bath === undefined
      ? nameTaken(bench, draft, asked, answers)
      : checkBath(answers, asked.bath);
  if (wrong !== undefined) return { reply: stillAsking(wrong, asked, "implausible") };
  const next: Draft = { ...draft, answers };
  const country = answers.measure === "metric" ? undefined : answers.measure;
  const heard = `${labelOf(asked)}: ${showHeard(asked, reading.value, answers, country)}.`;
  const corrected =
    nextQuestion(draft.answers) === undefined && nextQuestion(answers) === undefined;
  return {
    bench: { ...bench, draft: next },
    reply: corrected ? askRight(next, heard) : askNext(next, heard),
  };
}

/** The answer read back: both figures, where a keeping time came with its part-full one. */
function showHeard(
  asked: Question,
  value: unknown,
  answers: Answers,
  country: Country | undefined,
): string {
  const heard = showAnswer(asked, answerTo(answers, asked), country);
  return bothKeeps(value)
    ? `${heard} full, ${showAnswer(asked, value.keepsPart, country)} part full`
    : heard;
}

/** A run's word while no run is open and a sheet is being taught: its question waits. */
export function stillTeaching(draft: Draft, lead = "No run is open."): Reply {
  const { title, say, ask, lines, cautions } = askNext(draft, "");
  const { name } = draft.answers;
  const sheet = name === undefined ? "a sheet" : `the sheet ${name}`;
  return refuse("still-teaching", `${lead} You are teaching me ${sheet}. ${title}`, {
    ask,
    lines,
    cautions,
    say,
  });
}

/** The same question once more. */
const askOnce = (draft: Draft, asked: Question): Reply =>
  question(askOf(asked), asked.title, {
    say: oneBreath(asked.title),
    facts: { asking: asked.id, sheet: draft.answers.name ?? null },
  });

function nameTaken(
  bench: Bench,
  draft: Draft,
  asked: Question,
  answers: Answers,
): string | undefined {
  if (asked.id !== "name") return undefined;
  const same = Object.values(bench.sheets).find(
    ({ id, name }) => name.toLowerCase() === answers.name?.toLowerCase() && id !== draft.corrects,
  );
  return same === undefined
    ? undefined
    : `You have taught me a sheet called ${same.name}. Give this one another name.`;
}

const stillAsking = (why: string, asked: Question, reason: string): Reply =>
  refuse(reason, why, {
    say: oneBreath(why),
    facts: { asking: asked.id },
    ask: askOf(asked),
  });

/** The answers with one more. Naming the baths anew keeps what is known of those that stay. */
function store(answers: Answers, asked: Question, value: unknown): Answers {
  if (asked.bath === undefined) return { ...answers, [asked.id]: value };
  const told = bothKeeps(value) ? value : { [asked.word]: value };
  const bath = { ...answers.bath?.[asked.bath], ...told };
  return { ...answers, bath: { ...answers.bath, [asked.bath]: bath } };
}

/** A keeping time that was read with its part-full figure. */
const bothKeeps = (value: unknown): value is { keeps: number; keepsPart: number } =>
  typeof value === "object" && value !== null && "keepsPart" in value;

/** The question a correction means: by number, or by bath and word. */
export function questionMeant(
  answers: Answers,
  line: number | undefined,
  bath: string | undefined,
  word: string | undefined,
): Question | undefined {
  const all = questionsOf(answers);
  if (line !== undefined) return all[line - 1];
  const synonyms: Readonly<Record<string, string>> = {
    temp: "temperature",
    volume: "total",
    batch: "total",
    start: "water",
    rolls: "capacity",
    keeping: "keeps",
    life: "keeps",
    part: "keepsPart",
    half: "keepsPart",
    re: "reuse",
    "re-use": "reuse",
    exhaustion: "reuse",
    table: "rows",
    pushing: "push",
    law: "times",
    factor: "times",
    drift: "compensation",
    units: "measure",
  };
  const meant = word === undefined ? undefined : (ownValue(synonyms, word) ?? word);
  return all.find(
    (one) =>
      one.word === meant &&
      (bath === undefined ? true : one.bath === bath || one.bath?.endsWith(bath) === true),
  );
}
