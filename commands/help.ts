import { z } from "zod";
import { type Command, defineCommand, type Topic, topics } from "../src/commands/define-command.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

const headings: Record<Topic, string> = {
  run: "at the tank",
  mix: "mixing",
  bottle: "bottles",
  film: "film",
  sheet: "sheets",
  arithmetic: "sums",
  reminder: "reminders",
  bench: "the bench",
  emergency: "emergency",
};

const shown: readonly Topic[] = [
  "run",
  "mix",
  "bottle",
  "film",
  "sheet",
  "arithmetic",
  "reminder",
  "bench",
  "emergency",
];

export const helpCommand = defineCommand({
  name: "help",
  summary: "What I can do, or everything about one word.",
  topic: "bench",
  sentences: [
    "help",
    "help [me] [with|about|on] {what}",
    "(what can you do|what can i say|commands)",
    "how do i use {what}",
  ],
  slots: { what: "text" },
  examples: ["help", "help mix", "help values"],
  fields: z.object({ what: z.string().optional() }),
  changes: false,
  aside: true,
  values: {
    commands: "names of all commands, or of those on the page",
    command: "the one explained",
    keys: "what each key of its values means",
  },
  run({ commands }, { what }) {
    const word = what?.toLowerCase().trim();
    if (word === undefined) return overview(commands);
    if (word === "values" || word === "json") return valuesPage(commands);
    const exact = commands.find(({ name }) => name === word);
    const topic = topics.find((one) => one === word || headings[one] === word);
    if (exact === undefined && topic !== undefined) return topicPage(commands, topic);
    const command =
      exact ??
      commands.find(({ name }) => name.split(" ").includes(word)) ??
      commands.find(({ sentences }) =>
        sentences.some(({ text }) => text.split(/[^a-z]+/).includes(word)),
      );
    if (command === undefined) {
      return refuse(
        "no-such-help",
        `I have no help on "${word.slice(0, 40)}". Say help for everything.`,
        {
          say: "I have no help on that. Say help.",
        },
      );
    }
    return commandPage(command);
  },
});

function overview(commands: readonly Command[]) {
  return answer({
    title: "What I can do. Say help and a word for more.",
    lines: shown.map(
      (topic) =>
        `${headings[topic]}: ${commands
          .filter((command) => command.topic === topic)
          .map(({ name }) => name)
          .join(", ")}`,
    ),
    say: "Try: start developer, mix, bottles, left. Help and a word.",
    facts: { commands: commands.map(({ name }) => name) },
  });
}

function topicPage(commands: readonly Command[], topic: Topic) {
  const page = commands.filter((command) => command.topic === topic);
  return answer({
    title: headings[topic],
    lines: page.map(({ summary, examples }) => `${examples[0] ?? ""}: ${summary}`),
    say: `${page.length} commands: ${page
      .slice(0, 4)
      .map(({ name }) => name)
      .join(", ")}.`,
    facts: { commands: page.map(({ name }) => name) },
  });
}

function commandPage(command: Command) {
  const keys = Object.entries(command.values);
  return answer({
    title: `${command.name}: ${command.summary}`,
    lines: [
      ...command.examples.map((example) => `say: ${example}`),
      `more like it: help ${headings[command.topic]}`,
      ...(keys.length > 0 ? ["in JSON, values holds:"] : []),
      ...keys.map(([key, meaning]) => `  ${key}: ${meaning}`),
    ],
    say: sayOf(command),
    facts: { command: command.name, keys: { ...command.values } },
  });
}

/** Its first example that can be said in one breath. */
function sayOf({ name, examples }: Command): string {
  const says = [...examples, name].map((example) => `Say, for example: ${example}.`);
  return says.find((say) => oneBreath(say) === say) ?? `That is ${name}.`;
}

/** Every key of `values`, by command: the public form of script mode with --json. */
function valuesPage(commands: readonly Command[]) {
  return answer({
    title: "Keys of values in JSON, by command",
    lines: commands.flatMap(({ name, values }) =>
      Object.entries(values).map(([key, meaning]) => `${name}.${key}: ${meaning}`),
    ),
    say: "The list of keys is on the screen.",
    facts: { commands: commands.map(({ name }) => name) },
  });
}
