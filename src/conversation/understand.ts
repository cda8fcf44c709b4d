import type { Command } from "../commands/define-command.ts";
import { type Match, matchTemplate } from "../language/match.ts";
import { isUnsettled, type Listening } from "../language/reader.ts";
import type { Words } from "../language/words.ts";

export type Choice = {
  readonly command: Command;
  readonly fields: Readonly<Record<string, unknown>>;
};

/**
 * The command whose template reads the whole sentence best: least free text, then least that is
 * left open ("36" of what?), then most of its own words; of equals the first by name of its file.
 */
export function understand(
  sentence: Words,
  commands: readonly Command[],
  listening: Listening,
): Choice | undefined {
  const whole = read(sentence, commands, listening);
  if (whole !== undefined || !opening.has(sentence.words[0] ?? "")) return whole;
  const rest = {
    ...sentence,
    words: sentence.words.slice(1),
    original: sentence.original.slice(1),
    spans: sentence.spans.slice(1),
  };
  return rest.words.length === 0 ? undefined : understand(rest, commands, listening);
}

/** How people begin to speak before they say anything. */
const opening = new Set([
  "its",
  "ok",
  "so",
  "and",
  "well",
  "right",
  "now",
  "alright",
  "then",
  "good",
  "yeah",
  "hey",
  "please",
  "just",
]);

function read(
  sentence: Words,
  commands: readonly Command[],
  listening: Listening,
): Choice | undefined {
  const present = new Set(sentence.words);
  let best: (Choice & { readonly match: Match }) | undefined;
  for (const command of commands) {
    for (const template of command.sentences) {
      const match = matchTemplate(template, command.slots, sentence, present, listening);
      if (match !== undefined && (best === undefined || better(match, best.match))) {
        best = { command, fields: match.fields, match };
      }
    }
  }
  return best;
}

function better(a: Match, b: Match): boolean {
  if (a.loose !== b.loose) return a.loose < b.loose;
  const open = openIn(a) - openIn(b);
  return open !== 0 ? open < 0 : a.literals > b.literals;
}

/** Bare numbers whose unit has to be asked; whose quart it is does not count. */
const openIn = ({ fields }: Match): number =>
  Object.values(fields).filter((value) => isUnsettled(value) && value.unsettled !== "country")
    .length;
