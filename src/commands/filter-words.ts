import { showPush } from "../domain/film/roll.ts";
import type { Names } from "../domain/log/find-runs.ts";
import type { Clause, Fault } from "../domain/log/wanted.ts";
import { showDate } from "../domain/timing/clock-text.ts";

/** What was understood of a search, in words, so that a slip is seen: "pushed 2 stops, with Dora". */
export const filterWords = (clauses: readonly Clause[], names: Names): string =>
  clauses.map((clause) => wordsFor(clause, names)).join(", ");

const faultWords: Readonly<Record<Fault, string>> = {
  short: "short",
  long: "too long",
  skipped: "skipped",
  warm: "too warm",
  cold: "too cold",
  assumed: "only assumed",
  any: "with a deviation",
};

export const faultWord = ({ fault, bath }: Extract<Clause, { readonly kind: "fault" }>): string =>
  bath === undefined ? faultWords[fault] : `${bath} ${faultWords[fault]}`;

function wordsFor(clause: Clause, names: Names): string {
  switch (clause.kind) {
    case "push":
      if (clause.stops === "push") return "pushed";
      return clause.stops === "pull" ? "pulled" : showPush(clause.stops);
    case "film":
      return clause.count === undefined ? clause.format : `${clause.count} of ${clause.format}`;
    case "process":
      return clause.mark;
    case "name":
      return namedWords(clause.text, names);
    case "dates":
      return datesWords(clause);
    case "fault":
      return faultWord(clause);
    case "clean":
      return "without a deviation";
    case "stopped":
      return "stopped";
    case "rehearsals":
      return "rehearsals";
  }
}

function namedWords(text: string, names: Names): string {
  const meant = names.get(text) ?? [];
  const [first] = meant;
  if (first === undefined) return text;
  if (meant.length > 1) return `${first.name} (${meant.map(({ kind }) => kind).join(" or ")})`;
  switch (first.kind) {
    case "tank":
      return `in tank ${first.name}`;
    case "person":
      return `with ${first.name}`;
    case "sheet":
      return `by the ${first.name} sheet`;
    default:
      return `with ${first.name}`;
  }
}

function datesWords({ from, to }: Extract<Clause, { readonly kind: "dates" }>): string {
  if (from !== undefined && from === to) return `on ${showDate(from)}`;
  if (from === undefined) return to === undefined ? "at any time" : `until ${showDate(to)}`;
  return to === undefined ? `since ${showDate(from)}` : `from ${showDate(from)} to ${showDate(to)}`;
}
