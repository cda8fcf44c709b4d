import type { Command } from "../../../commands/define-command.ts";
import { oncePer } from "../../../domain/once-per.ts";
import { slashFields, slashName } from "./slash-fields.ts";

/** Where a command is found: "in", or "bottle" and its subcommand "fill". */
export type SlashPlace = {
  readonly name: string;
  readonly sub?: string | undefined;
  readonly command: Command;
};

/** The command that takes any sentence. */
export const SAY = "say";

/**
 * Words that stand alone, since they are said with wet hands or more often than others: at the
 * tank, while mixing, and about the talk itself. All others stand under their topic.
 */
const ALONE: ReadonlySet<string> = new Set([
  ...[
    "in",
    "out",
    "next",
    "ready",
    "wait",
    "skip",
    "stop",
    "hold",
    "go on",
    "again",
    "left",
    "yes",
  ],
  ...["start", "rehearse", "plan", "temperature", "trouble", "emergency", "note", "summary"],
  ...["mix", "part in", "water in", "clear", "stop mixing"],
  ...["help", "hello", "cancel", "undo", "why", "time", "wet", "dark", "light", "settings"],
  ...["bottles", "rolls", "remind", "reminders", "snooze", "learn"],
]);

/** Topics whose own name is a word that stands alone. */
const GROUPS: Readonly<Record<string, string>> = { mix: "mixing", arithmetic: "sums" };

/** A subcommand named like its group would read twice: "/bottle new". */
const subName = (group: string, { name }: Command): string =>
  slashName(name) === group ? "new" : slashName(name);

const MOST_SUBS = 25;
/** Of the 8,000 characters a command may have, what its parts leave for its own head. */
const MOST_SIZE = 7500;

/** Characters that count: names, descriptions and values of a subcommand and all in it. */
function sizeOf(name: string, command: Command): number {
  const options = slashFields(command).map(
    ({ option, description, choices = [] }) =>
      option.length +
      description.length +
      choices.reduce((sum, choice) => sum + choice.name.length + choice.value.length, 0),
  );
  return name.length + command.summary.length + options.reduce((sum, size) => sum + size, 0);
}

/**
 * The place of every command, by name, the same for the same commands. A topic that does not fit
 * one slash command goes on in "bottle-2", in order of names.
 */
export const slashPlaces = oncePer((commands: readonly Command[]): readonly SlashPlace[] => {
  const alone = commands
    .filter(({ name }) => ALONE.has(name))
    .map((command) => ({ name: slashName(command.name), command }));
  const taken = new Set([SAY, ...alone.map(({ name }) => name)]);
  const topics = Map.groupBy(
    commands.filter(({ name }) => !ALONE.has(name)),
    ({ topic }) => topic,
  );
  const grouped = [...topics].flatMap(([topic, members]) => {
    const wanted = GROUPS[topic] ?? slashName(topic);
    const group = taken.has(wanted) ? `${wanted}-words` : wanted;
    return placed(group, members);
  });
  return [...alone, ...grouped].toSorted((one, other) => order(one).localeCompare(order(other)));
});

const order = ({ name, sub = "" }: SlashPlace): string => `${name} ${sub}`;

function placed(group: string, members: readonly Command[]): readonly SlashPlace[] {
  const rising = members.toSorted((one, other) => (one.name < other.name ? -1 : 1));
  let part = 1;
  let count = 0;
  let size = 0;
  return rising.map((command) => {
    const sub = subName(group, command);
    const more = sizeOf(sub, command);
    if (count === MOST_SUBS || size + more > MOST_SIZE) {
      part += 1;
      count = 0;
      size = 0;
    }
    count += 1;
    size += more;
    return { name: part === 1 ? group : `${group}-${part}`, sub, command };
  });
}

/** The place of a command of that name, for hints and tests. */
export const placeOf = (commands: readonly Command[], name: string): SlashPlace | undefined =>
  slashPlaces(commands).find(({ command }) => command.name === name);
