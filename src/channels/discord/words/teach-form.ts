import {
  type APILabelComponent,
  type APIModalInteractionResponseCallbackData,
  ComponentType,
  TextInputStyle,
} from "discord-api-types/v10";
import type { Bench } from "../../../domain/session/bench.ts";
import type { Draft } from "../../../domain/session/draft.ts";
import {
  answerTo,
  nextQuestion,
  type Question,
  questionsOf,
} from "../../../domain/teaching/questions.ts";
import { keyOfText } from "./asked.ts";
import { button, type Rows } from "./buttons.ts";
import { customId } from "./custom-id.ts";

/** The word of the button that opens the form, and of the form itself. */
export const FORM = "form";

const PAGE = 5;
const LABEL = 45;
const DESCRIPTION = 100;
const LONGEST = 400;

/** What was typed into the fields of a page that were not taken, by the id of their question. */
export type Typed = Readonly<Record<string, string>>;

/** Which sheet a page is about: its questions are numbered by its baths. */
export const sheetKey = (draft: Draft | undefined): string =>
  keyOfText(JSON.stringify([draft?.corrects ?? null, draft?.answers.baths ?? null]));

/** The questions of the next page: the first that have no answer, in the order they are asked. */
export function formPage(draft: Draft | undefined): readonly Question[] {
  const answers = draft?.answers ?? {};
  return questionsOf(answers)
    .filter((question) => answerTo(answers, question) === undefined)
    .slice(0, PAGE);
}

/**
 * The next page of the form that teaches a sheet, with what was typed before where it was not
 * taken; undefined when nothing is left to fill in. A field left empty is not on the sheet.
 */
export function teachForm(
  draft: Draft | undefined,
  benchKey: string,
  typed: Typed = {},
): APIModalInteractionResponseCallbackData | undefined {
  const page = formPage(draft);
  if (page.length === 0) return undefined;
  const name = draft?.answers.name;
  return {
    custom_id: customId.make({ bench: benchKey, word: FORM, asked: sheetKey(draft) }),
    title: cut(name === undefined ? "sheet" : `sheet ${name}`, LABEL),
    components: page.map((question) => field(question, typed[question.id])),
  };
}

const cut = (text: string, most: number): string => {
  if (text.length <= most) return text;
  const head = text.slice(0, most - 1);
  const space = head.lastIndexOf(" ");
  return `${head.slice(0, space > most / 2 ? space : most - 1).toWellFormed()}…`;
};

/** The words of a question behind the bath it names. */
const asks = ({ title, bath }: Question): string =>
  bath === undefined ? title : title.slice(bath.length + 2);

const long: ReadonlySet<Question["wants"]> = new Set(["baths", "parts", "reuse", "push", "times"]);

function field(question: Question, typed: string | undefined): APILabelComponent {
  const { id, bath, word, optional, wants } = question;
  const label = bath === undefined ? word : `${bath} ${word}`;
  const words = asks(question);
  const description = words.charAt(0).toUpperCase() + words.slice(1);
  return {
    type: ComponentType.Label,
    label: cut(label, LABEL),
    description: cut(description, DESCRIPTION),
    component: {
      type: ComponentType.TextInput,
      custom_id: id,
      style: long.has(wants) ? TextInputStyle.Paragraph : TextInputStyle.Short,
      required: !optional,
      max_length: LONGEST,
      ...(typed === undefined || typed === "" ? {} : { value: typed.slice(0, LONGEST) }),
    },
  };
}

/** The button that opens the form, while a sheet is being taught and something is left to fill in. */
export function formButton(bench: Bench, benchKey: string): Rows {
  const { draft } = bench;
  if (draft === undefined || nextQuestion(draft.answers) === undefined) return [];
  return [[button(benchKey, FORM, sheetKey(draft))]];
}
