import { showOrigin } from "../domain/origin.ts";
import type { SessionStage } from "../domain/record/session-schema.ts";
import { plain } from "../domain/units/show.ts";
import {
  type AnySession,
  beatsWords,
  bottleWords,
  filmWords,
  headWords,
  inWords,
  length,
  lookWords,
  peopleWords,
  plannedWords,
  readingWords,
  realWords,
  unverifiedWords,
} from "./session-words.ts";

/** Text that comes from people must not become markup, a table's column or a line of its own. */
const safe = (text: string): string =>
  text.replace(/\s+/g, " ").replace(/[\\`*_{}[\]<>#|~!&]/g, (sign) => `\\${sign}`);

const list = (items: readonly string[]): readonly string[] =>
  items.map((item) => `- ${safe(item)}`);

const section = (title: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [] : [`## ${title}`, "", ...lines, ""];

/** A session as Markdown: the same words as in the chat, with tables for baths and rules. */
export function sessionMarkdown(session: AnySession): string {
  const { stages, odd, deviations, first_look, lesson, private: own } = session;
  const lines = [
    `# ${safe(`${session.tank}: ${session.title}`)}`,
    "",
    safe(headWords(session)),
    "",
    ...(session.sheet.invented
      ? ["**Invented figures: never develop real film by them.**", ""]
      : []),
    ...(session.rehearsal_speed === null
      ? []
      : ["**A rehearsal with water and a scrap roll: nothing counted.**", ""]),
    `Film: ${safe(filmWords(session))}`,
    "",
    ...section("Baths", stageTable(session)),
    ...section(
      "Corrections",
      list(
        stages.flatMap(({ bath, corrections }) =>
          corrections.map(
            ({ kind, by_s, how }) =>
              `${bath}, ${kind}: ${by_s < 0 ? "-" : "+"}${length(Math.abs(by_s))}; ${how}`,
          ),
        ),
      ),
    ),
    ...section("Thermometers", list(unverifiedWords(session))),
    ...section("Bottles", list(session.bottles.map(bottleWords))),
    ...section("Deviations", deviations.length === 0 ? ["None."] : list(deviations)),
    ...section("Odd", list(odd)),
    ...section("First look", first_look === null ? [] : firstLook(first_look)),
    ...section("One lesson", [
      safe(lesson.text),
      ...(lesson.because.length === 0 ? [] : ["", ...list(lesson.because)]),
    ]),
    ...section("Where the figures come from", ruleTable(session)),
    ...(own === undefined
      ? []
      : section(
          "Private",
          list([
            ...peopleWords(session),
            ...own.mixed_by.map(({ bottle, by }) => `${bottle} was mixed by ${by}`),
            ...(own.different === null || own.different === ""
              ? []
              : [`Different: ${own.different}`]),
            ...(own.stopped_because === null ? [] : [`Stopped: ${own.stopped_because}`]),
            ...own.rolls.map(
              ({ number, name, stock, note }) =>
                `Roll ${number}${[name, stock, note].map((one) => (one === null ? "" : `, ${one}`)).join("")}`,
            ),
            ...own.notes.map(({ at_s, text }) => `After ${length(Math.max(0, at_s))}: ${text}`),
          ]),
        )),
  ];
  return `${lines.join("\n").trimEnd()}\n`;
}

const firstLook = (look: NonNullable<AnySession["first_look"]>): readonly string[] => [
  safe(lookWords(look)),
  ...(look.hints.length === 0 ? [] : [""]),
  ...list(look.hints.map(({ text, source }) => (source === null ? text : `${text} (${source})`))),
];

const row = (cells: readonly string[]): string => `| ${cells.map(safe).join(" | ")} |`;

function stageTable(session: AnySession): readonly string[] {
  return [
    "| Bath | Planned | Real | In | Aim | Read | Beats |",
    "| --- | --- | --- | --- | --- | --- | --- |",
    ...session.stages.map((stage) =>
      row([
        stage.bath,
        plannedWords(stage),
        realWords(stage),
        stage.real_from_s === null ? "" : inWords(session, stage.real_from_s),
        aim(stage),
        stage.readings.length === 0 ? "" : `${stage.readings.map(readingWords).join(", ")} °C`,
        beatsWords(stage) ?? "",
      ]),
    ),
  ];
}

const aim = ({ aim_c, tolerance_c }: SessionStage): string =>
  aim_c === null
    ? ""
    : `${plain(aim_c, 1)}${tolerance_c === null ? "" : ` ±${plain(tolerance_c, 2)}`} °C`;

const ruleTable = ({ rules }: AnySession): readonly string[] => [
  "| Bath | Figure | From |",
  "| --- | --- | --- |",
  ...rules.map(({ bath, of, origin }) => row([bath, of, showOrigin(origin)])),
];
