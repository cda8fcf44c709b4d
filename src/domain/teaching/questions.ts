import { isDeveloper, isWater } from "../process/sheet.ts";
import type { Answers, Measure } from "./answers.ts";

/** What kind of answer a question wants. */
export type Wants =
  | "name"
  | "process"
  | "measure"
  | "baths"
  | "volume"
  | "warmth"
  | "parts"
  | "time"
  | "temperature"
  | "agitation"
  | "count"
  | "keeps"
  | "reuse"
  | "rows"
  | "push"
  | "times"
  | "yes";

export type Question = {
  /** "name", or bath number and word: "2.time". */
  readonly id: string;
  readonly title: string;
  readonly wants: Wants;
  /** The bath it is about, by its name on the sheet. */
  readonly bath?: string | undefined;
  /** The word it is corrected by: "change developer time to 3:30". */
  readonly word: string;
  readonly optional: boolean;
};

const head: readonly Question[] = [
  {
    id: "name",
    word: "name",
    wants: "name",
    optional: false,
    title: "What shall I call this sheet? Not the maker's name; something short you will say.",
  },
  {
    id: "process",
    word: "process",
    wants: "process",
    optional: false,
    title: "Which process is it for: C-41, E-6, ECN-2 or black-and-white?",
  },
  {
    id: "measure",
    word: "measure",
    wants: "measure",
    optional: false,
    title: "What does the paper measure in: millilitres, US ounces or Imperial ounces?",
  },
  {
    id: "baths",
    word: "baths",
    wants: "baths",
    optional: false,
    title: "Which baths, in the order of use? For example: developer, blix, wash, stabilizer.",
  },
];

const unitOf: Record<Measure, string> = {
  metric: "1 litre",
  us: "32 ounces",
  imperial: "40 ounces",
};

/** Every question of a sheet so far: the later ones follow from the baths that were named. */
export function questionsOf(answers: Answers): readonly Question[] {
  const baths = answers.baths ?? [];
  const example = unitOf[answers.measure ?? "metric"];
  return [
    ...head,
    ...baths.flatMap(({ name, kind }, index): readonly Question[] => {
      const at = (word: string, wants: Wants, title: string, optional: boolean): Question => ({
        id: `${index + 1}.${word}`,
        title: `${name}: ${title}`,
        wants,
        bath: name,
        word,
        optional,
      });
      const total = answers.bath?.[name]?.total;
      const mixed = total !== undefined && total !== null;
      return [
        ...(isWater(kind)
          ? []
          : [
              at(
                "total",
                "volume",
                `how much does one batch make? Like ${example}. Say skip if it is not mixed from parts.`,
                true,
              ),
              ...(mixed
                ? [
                    at("water", "volume", "how much water to start with?", false),
                    at("warm", "warmth", "how warm is that water? Or skip.", true),
                    at(
                      "parts",
                      "parts",
                      "which parts go in, in order? Like A 100 ml, B 50 ml, C 12 g powder.",
                      false,
                    ),
                  ]
                : []),
            ]),
        at(
          "time",
          "time",
          `how long is film in it? Like 3:15${isDeveloper(kind) ? "" : ", at least 6:30"}.`,
          false,
        ),
        at(
          "temperature",
          "temperature",
          "at what temperature? Like 37.8 C, 38 plus or minus 1, or 35 to 40 C. Or skip.",
          true,
        ),
        at(
          "agitation",
          "agitation",
          "how is it agitated? Like first 30 seconds, then 5 seconds every 30. Or skip.",
          true,
        ),
        ...(isWater(kind)
          ? []
          : [
              at("capacity", "count", "how many rolls does one batch do? Or skip.", true),
              at("keeps", "keeps", "how long does it keep, mixed? Like 6 weeks. Or skip.", true),
              // Only where the answer held both: "6 weeks full, 4 weeks part full".
              ...(answers.bath?.[name]?.keepsPart === undefined
                ? []
                : [at("keepsPart", "keeps", "how long does it keep in a part-full bottle?", true)]),
            ]),
        ...(isDeveloper(kind) ? developerQuestions(answers, name, at) : []),
      ];
    }),
  ];
}

type At = (word: string, wants: Wants, title: string, optional: boolean) => Question;

/** Only a developer's time changes with the film it has done, a push, and the temperature. */
function developerQuestions(answers: Answers, name: string, at: At): readonly Question[] {
  const table = answers.bath?.[name]?.reuse?.kind === "table";
  const law = answers.bath?.[name]?.times;
  return [
    at(
      "reuse",
      "reuse",
      "does its time rise with film done? Like 4 percent per roll, 5 seconds per roll, or table 1 3:15, 2 3:20. Or skip.",
      true,
    ),
    ...(table
      ? [
          at(
            "rows",
            "rows",
            "in that table, does 2 mean two are done so far, or this one is the second?",
            false,
          ),
        ]
      : []),
    at(
      "push",
      "push",
      "what does it say about pushing? Like 30 seconds per stop, times 1.3 per stop, or table 1 3:45, 2 4:15. Or skip.",
      true,
    ),
    at(
      "times",
      "times",
      "does it give times for other temperatures? Like table 20 6:30, 21 6:00, or factor 2 for 10 degrees. Or skip.",
      true,
    ),
    // Only a developer whose law is known can be re-planned while film is in it.
    ...(law === undefined || law === null
      ? []
      : [
          at(
            "compensation",
            "yes",
            "does it allow the time to be changed while film is in it, when the bath drifts? Yes or no.",
            true,
          ),
        ]),
  ];
}

/** The first question without an answer; undefined when the sheet is complete. */
export const nextQuestion = (answers: Answers): Question | undefined =>
  questionsOf(answers).find((question) => answerTo(answers, question) === undefined);

/** The answer kept for a question; null where it was left out. */
export function answerTo(answers: Answers, question: Question): unknown {
  if (question.bath === undefined)
    return answers[question.id as "name" | "process" | "measure" | "baths"];
  return answers.bath?.[question.bath]?.[
    question.word as keyof NonNullable<Answers["bath"]>[string]
  ];
}
